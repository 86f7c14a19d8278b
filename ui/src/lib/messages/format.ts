import { IntlMessageFormat } from 'intl-messageformat';

export type Arguments = Readonly<Record<string, string | number>>;

/** `"name, plural, …"` and `"name"` both start with the argument's name. */
type NameOf<Head extends string> = Head extends `${infer Name},${string}` ? Name : Head;

/** Text inside a plural branch holds a space or a number sign; an argument's name doesn't. */
type IsName<Head extends string> = Head extends `${string} ${string}` | `${string}#${string}` | ''
  ? never
  : Head;

/** The arguments that a message's text names, read from the text itself. */
export type ArgumentNames<Text extends string> = Text extends `${string}{${infer Rest}`
  ? Rest extends `${infer Head}}${string}`
    ? IsName<NameOf<Head>> | ArgumentNames<Rest>
    : never
  : never;

const compiled = new Map<string, IntlMessageFormat>();

/** Fills a message in ICU MessageFormat for a locale. Compiles each text once. */
export function fill(text: string, locale: string, values?: Arguments): string {
  if (!text.includes('{') && !text.includes("'")) return text;
  const key = `${locale}\u0000${text}`;
  let message = compiled.get(key);
  if (!message) {
    message = new IntlMessageFormat(text, locale, undefined, { ignoreTag: true });
    compiled.set(key, message);
  }
  return String(message.format(values));
}

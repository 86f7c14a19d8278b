const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * What of `found` fits the form: the fields that the form has, where they are of the form's kind.
 * A draft may be older than the form that finds it. A field that is null takes any plain value, and
 * a number may have become null.
 */
export function fitShape<T>(form: T, found: unknown): T {
  if (form === null) return (isPlain(found) || Array.isArray(found) ? form : found) as T;
  if (Array.isArray(form)) return (Array.isArray(found) ? found : form) as T;
  if (isPlain(form)) {
    if (!isPlain(found)) return form;
    const fitted: Record<string, unknown> = {};
    for (const [name, value] of Object.entries(form)) {
      fitted[name] = Object.hasOwn(found, name) ? fitShape(value, found[name]) : value;
    }
    return fitted as T;
  }
  // A stored number that somebody typed over is null in the draft.
  const fits = typeof found === typeof form || (typeof form === 'number' && found === null);
  return (fits ? found : form) as T;
}

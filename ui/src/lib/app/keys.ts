/** What a key does, wherever one is. */
export type KeyAction =
  | 'help'
  | 'find'
  | 'new_job'
  | 'jobs'
  | 'guide'
  | 'how'
  | 'settings'
  | 'undo'
  | 'main';

/** Keys that act by themselves. They can be switched off (WCAG 2.1.4), the others not. */
export const SINGLE_KEYS: Readonly<Record<string, KeyAction>> = {
  '?': 'help',
  '/': 'find',
  n: 'new_job',
  j: 'jobs',
  g: 'guide',
  h: 'how',
  s: 'settings',
  u: 'undo',
};

/** Whether keys belong to what has the focus: a field that is being typed into, a list of choices. */
export function takesKeys(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement) return true;
  if (target instanceof HTMLSelectElement) return true;
  return target instanceof HTMLInputElement && !['radio', 'checkbox', 'button'].includes(target.type);
}

/** What a key pressed asks for; nothing when it is somebody else's. */
export function keyAction(
  event: KeyboardEvent,
  { single, covered }: { single: boolean; covered: boolean },
): KeyAction | undefined {
  if (event.defaultPrevented || event.repeat || event.isComposing) return undefined;
  if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) return 'main';
  if (!single || covered || event.ctrlKey || event.metaKey || event.altKey) return undefined;
  if (takesKeys(event.target)) return undefined;
  return Object.hasOwn(SINGLE_KEYS, event.key) ? SINGLE_KEYS[event.key] : undefined;
}

/** The main action of what is on top: the open sheet, else the screen. */
export function mainAction(page: Document = document): HTMLButtonElement | undefined {
  const sheet = [...page.querySelectorAll('dialog[open]')].at(-1);
  const found = sheet
    ? sheet.querySelectorAll<HTMLButtonElement>('button.primary')
    : page.querySelectorAll<HTMLButtonElement>('[data-actions] button.primary');
  return [...found].find((button) => !button.disabled && button.checkVisibility());
}

/** The field that finds something in the list shown: of the place itself before the list beside it. */
export function findField(page: Document = document): HTMLInputElement | undefined {
  const fields = [...page.querySelectorAll<HTMLInputElement>('main input[type="search"], input[type="search"]')];
  const visible = fields.filter((field) => field.checkVisibility());
  return visible.find((field) => field.closest('main')) ?? visible[0];
}

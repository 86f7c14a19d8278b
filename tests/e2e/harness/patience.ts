/** How long a story waits for what it expects: time enough for a busy machine; nothing is asserted about it. */
export const PATIENCE_MS = 45_000;

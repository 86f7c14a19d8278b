/**
 * The command table's types: name, arguments, answer. To be replaced by the types generated from
 * the core's own schemas (lib/generated) as soon as they exist.
 */
export type CommandMap = Record<string, { args: unknown; answer: unknown }>;

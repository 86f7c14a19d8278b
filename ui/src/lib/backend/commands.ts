/** The command table's types: name, arguments, answer. Generated from the core's own schemas. */
export type { Commands as CommandMap } from '$lib/generated/commands';

import type { Commands } from '$lib/generated/commands';

/** What is said about a part, and what the core says to it. */
export type ProfilePart = Commands['profile.put']['args']['part'];
export type ProfilePutAnswer = Commands['profile.put']['answer'];

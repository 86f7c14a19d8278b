import { Channel, invoke } from '@tauri-apps/api/core';
import type { FileHeld } from '$lib/generated/commands';
import { type Backend, answerOver, backendOver, readAnswer } from './backend';
import { CommandFailure } from './errors';
import type { ShellFiles } from './shell';

/**
 * The core in the same program, behind the shell's command `call`. The shell passes the core's
 * JSON on as it is, so what arrives here has been read already.
 */
export function tauriBackend(): Backend {
  return {
    ...backendOver((request) => invoke('call', { request })),
    files: shellFiles(),
  };
}

/** The shell's other commands: they ask the person, and answer as the core does. */
function shellFiles(): ShellFiles {
  return {
    async save(file, words) {
      const answer = await answerOver(() => invoke('save_file', { file, words }));
      return (answer as { saved: string } | null)?.saved;
    },
    async pick(words) {
      const answer = await answerOver(() => invoke('pick_file', { words }));
      return (answer as FileHeld | null) ?? undefined;
    },
    watch(opened) {
      const page = new Channel<string>((answer) => {
        try {
          opened(readAnswer(answer) as FileHeld);
        } catch (cause) {
          if (!(cause instanceof CommandFailure)) throw cause;
          opened(cause);
        }
      });
      void invoke('watch_opened', { page });
    },
  };
}

/** What the system's dialogs for files ask, in English. Part of the one catalogue (en.ts). */
export const enFiles = {
  'files.save_title': 'Save the file',
  'files.pick_title': 'Take in a file',
  'files.bundle': 'Files passed on from this app',
  'files.other': '{ending} files',
} as const;

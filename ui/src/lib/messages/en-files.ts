/** What the system's dialogs for files ask, and its share sheet, in English. Part of the one catalogue (en.ts). */
export const enFiles = {
  'files.save_title': 'Save the file',
  'files.pick_title': 'Take in a file',
  'files.bundle': 'Files passed on from this app',
  'files.other': '{ending} files',
  'files.share': 'Share it',
  'error.not_shared.what': 'The file couldn’t be shared.',
  'error.not_shared.means': 'Not every system takes every kind of file. It is still here, whole.',
  'error.not_shared.todo': 'Save it on this device instead, and send it from there.',
} as const;

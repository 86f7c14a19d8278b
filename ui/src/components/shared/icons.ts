/** Outlines on a 24 by 24 grid, drawn for this app with a 2 px round pen. */
export const ICONS = {
  back: 'M15 5l-7 7 7 7',
  forward: 'M9 5l7 7-7 7',
  down: 'M5 9l7 7 7-7',
  undo: 'M8 5L4 9l4 4M4 9h10a6 6 0 0 1 0 12h-3',
  redo: 'M16 5l4 4-4 4M20 9H10a6 6 0 0 0 0 12h3',
  more: 'M11.5 5h1v1h-1zM11.5 11.5h1v1h-1zM11.5 18h1v1h-1z',
  close: 'M6 6l12 12M18 6L6 18',
  check: 'M5 12.5l4.5 4.500L19 7.5',
  plus: 'M12 5v14M5 12h14',
  erase: 'M9 6h11v12H9l-6-6zM12.5 9.500l5 5M17.5 9.500l-5 5',
  edit: 'M5 19l1-4L16 5l3 3L9 18zM14 7l3 3',
  info: 'M12 3.500a8.5 8.5 0 1 1 0 17 8.5 8.5 0 0 1 0-17zM12 11v5.500M12 7.700v.01',
  help: 'M12 3.500a8.5 8.5 0 1 1 0 17 8.5 8.5 0 0 1 0-17zM9.600 9.800a2.400 2.400 0 1 1 3.600 2.100c-.8.5-1.200 1-1.200 1.900M12 16.800v.01',
  warning: 'M12 4L2.800 20h18.400zM12 10v4.500M12 17.200v.01',
  blocked: 'M8.5 3.500h7l5 5v7l-5 5h-7l-5-5v-7zM12 8v5M12 16.200v.01',
  table: 'M4 5h16v14H4zM4 10h16M10 5v14',
} as const;

export type IconName = keyof typeof ICONS;

import type { IconName } from './icons';

/** One line of an overflow menu. */
export interface MenuItem {
  readonly label: string;
  readonly note?: string;
  readonly icon?: IconName;
  readonly disabled?: boolean;
  readonly run: () => void;
}

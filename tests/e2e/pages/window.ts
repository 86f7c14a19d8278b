// The window that a story is told in: Chromium at one of three sizes, or the app's own.
import { existsSync } from 'node:fs';
import path from 'node:path';
import { expect } from 'vitest';
import type { App } from '../harness/app';
import type { Phone } from '../harness/browser';
import type { Server } from '../harness/headless';
import { followLink } from '../harness/link';
import { temporaryFolder } from '../harness/process';
import type { Hands } from './hands';
import { PhoneHands, waits } from './phone-hands';
import { lookOver } from './screen';
import { Technician } from './technician';
import type { Courier } from './whole-job';
import { WindowHands } from './window-hands';

export const SIZES = {
  'small phone': { width: 360, height: 800 },
  'large phone': { width: 412, height: 915 },
  'bench PC': { width: 1280, height: 800 },
} as const;

/** What a story needs of the window it is told in. */
export interface Window {
  readonly hands: Hands;
  readonly technician: Technician;
  /** The core on the same store, past the interface. */
  readonly core: Server;
  /** Goes to a place as by a link. */
  readonly goTo: (place: string) => Promise<void>;
  readonly look: (screen: string) => Promise<void>;
}

/** A window that carries files, too. */
export interface CarryingWindow extends Window {
  readonly courier: Courier;
  /** Takes away what it saved. */
  readonly remove: () => void;
}

/** Chromium, each screen looked over. */
export function onPhone(phone: Phone): CarryingWindow {
  const { page } = phone;
  const hands = new PhoneHands(page);
  const folder = temporaryFolder();
  return {
    hands,
    technician: new Technician(hands),
    core: phone.server,
    goTo: (place) => phone.goTo(place),
    // The large phone shows what the small one does, farther apart: axe has seen it there.
    look: (screen) => {
      const sizesAlone = page.viewportSize()?.width === SIZES['large phone'].width;
      return lookOver(phone, screen, { sizesAlone });
    },
    // A browser keeps downloads, and asks for files by a chooser of its own.
    courier: {
      saves: async (ending, press) => {
        const download = page.waitForEvent('download');
        await press();
        const file = path.join(folder.path, `saved.${ending}`);
        await (await download).saveAs(file);
        return file;
      },
      brings: async (file, press) => {
        const chooser = page.waitForEvent('filechooser');
        await press();
        await (await chooser).setFiles(file);
      },
    },
    remove: folder.remove,
  };
}

/** The environment by which the app's dialog answers with this place when a file is saved. */
export const savingTo = (place: string) => ({ VALVEWRIGHT_TEST_SAVE: place });

/** The app's own window; each file that is saved gets its own ending at `place`, if one is given. */
export function inApp(app: App, core: Server, place = ''): Window & { readonly courier: Courier } {
  const hands = new WindowHands(() => app.page);
  const hash = () => app.page.execute(() => location.hash);
  return {
    hands,
    technician: new Technician(hands),
    core,
    goTo: async (to) => {
      await app.page.execute(followLink, to);
      await expect.poll(hash, waits(to)).toBe(to);
    },
    look: async () => undefined,
    courier: {
      saves: async (ending, press) => {
        await press();
        const file = `${place}.${ending}`;
        await expect.poll(() => existsSync(file), waits(file)).toBe(true);
        return file;
      },
      brings: (_, press) => press(),
    },
  };
}

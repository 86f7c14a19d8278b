import type { GuidePage, PageId } from '../page';
import { body } from './body';
import { hand } from './hand';
import { judgement } from './judgement';
import { measuring } from './measuring';
import { records } from './records';
import { repair } from './repair';
import { road } from './road';
import { vacuum } from './vacuum';

/** Every page in English. Loaded only when somebody opens the guide. */
export const EN: Readonly<Record<PageId, GuidePage>> = {
  ...road,
  ...hand,
  ...vacuum,
  ...measuring,
  ...body,
  ...judgement,
  ...repair,
  ...records,
} satisfies Record<PageId, GuidePage>;

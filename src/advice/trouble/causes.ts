import type { Cause } from './cause.ts';
import { dialCauses } from './causes-dial.ts';
import { gainCauses } from './causes-gain.ts';
import { ifCauses } from './causes-if.ts';

const all = { ...ifCauses, ...gainCauses, ...dialCauses };

/** A cause by its short name. */
export type CauseId = keyof typeof all;

/** Every cause that a trouble can come down to. What it shows and what helps: common practice of the trade, in our words. */
export const causes: Readonly<Record<CauseId, Cause>> = all;

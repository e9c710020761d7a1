import { benchTests } from './tests-bench.ts';
import { circuitTests } from './tests-circuit.ts';
import { curveTests } from './tests-curve.ts';
import { dialTests } from './tests-dial.ts';
import { levelTests } from './tests-level.ts';
import { soundTests } from './tests-sound.ts';
import type { TroubleTest } from './trouble-test.ts';

const all = { ...soundTests, ...levelTests, ...curveTests, ...circuitTests, ...dialTests, ...benchTests };

/** A test by its short name. */
export type TestId = keyof typeof all;

/** Every test that can settle a trouble. None puts a probe on the circuit that is being set. */
export const tests: Readonly<Record<TestId, TroubleTest>> = all;

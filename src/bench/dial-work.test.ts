import { expect, test } from 'vitest';
import type { Happening } from '#record/run.ts';
import { exampleCard } from '../../test/example-set.ts';
import { runEntries, started, turned } from '../../test/run-on-paper.ts';
import { dialPoints } from './dial-points.ts';
import { dialPass, turnsSince } from './dial-work.ts';
import { runState } from './run-state.ts';

const band = exampleCard().bands?.[0]?.id ?? '';

const reading = (dialHz: number, pass: number): Happening => ({
	kind: 'dial reading',
	band,
	pass,
	dialHz,
	heardHz: dialHz + 10e3,
	heardUncertaintyHz: 300,
	source: 'generator',
	words: 'typed',
});
const stateAfter = (...happenings: readonly Happening[]) => runState('r', runEntries([started(), ...happenings]));
const levers = ['trimmerF', 'padderShare', 'pointerM'] as const;
const turnedOf = (...happenings: readonly Happening[]) =>
	dialPoints(stateAfter(...happenings).dial, band, levers, []).map(({ pass, turned }) => ({ pass, ...turned }));

test('a trimmer turned at the bench ends the pass that its marks were read in, and parts what was read before from what comes after', () => {
	const before = [reading(1400e3, 0), reading(600e3, 0)];
	expect(dialPass(stateAfter(...before).dial, band)).toBe(0);
	const { dial } = stateAfter(...before, turned('oscillator-trimmer', 1));
	expect(dialPass(dial, band)).toBe(1);
	expect(turnsSince(dial, band).map(({ adjuster: { id } }) => id)).toEqual(['oscillator-trimmer']);
	const asFound = { pass: 0, trimmerF: 0, padderShare: 0, pointerM: 0 };
	expect(turnedOf(...before, turned('oscillator-trimmer', null), reading(1400e3, 1))).toEqual([
		asFound,
		asFound,
		{ pass: 1, trimmerF: 1, padderShare: 0, pointerM: 0 },
	]);
	expect(turnedOf(...before, turned('padder', -2), reading(1400e3, 1)).at(-1)).toMatchObject({ padderShare: 1 });
});

test('a turn that is none, and one before the first mark, leave the dial as it is', () => {
	const unmoved = stateAfter(reading(1400e3, 0), turned('oscillator-trimmer', 0), turned('antenna-trimmer', 3));
	expect(dialPass(unmoved.dial, band)).toBe(0);
	expect(dialPass(stateAfter(turned('oscillator-trimmer', 3), reading(1400e3, 0)).dial, band)).toBe(0);
});

test('marks read before the IF was set are of another IF and count no more', () => {
	const points = turnedOf(reading(1400e3, 0), reading(600e3, 0), turned('if2-secondary', 1), reading(1400e3, 1));
	expect(points).toEqual([{ pass: 1, trimmerF: 0, padderShare: 0, pointerM: 0 }]);
});

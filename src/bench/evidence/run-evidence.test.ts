import { expect, test } from 'vitest';
import { standingAnswers } from '#advice/trouble/ranking.ts';
import type { Happening } from '#record/run.ts';
import { runEntries as entries, turned } from '../../../test/run-on-paper.ts';
import { runEvidence } from './run-evidence.ts';

const levels = (adjuster: string, values: readonly number[]): Happening[] =>
	values.map((value) => ({
		kind: 'level',
		step: 's',
		adjuster,
		purpose: 'live',
		reading: {
			kind: 'level',
			atMs: 0,
			instrument: 'meter',
			levelDb: { value, uncertainty: 0.05 },
			reference: 'dBV',
			quantity: 'tone',
			trust: 'ok',
		},
	}));

test('an adjuster whose turn gained much is not called dead when only its last levels are in hand', () => {
	const gained = { ...turned('T2', -2), gainDb: { value: 5.3, uncertainty: 0.1 } };
	const found = runEvidence(
		entries([...levels('T1', [-10, -8, -6, -7]), turned('T1', 1), ...levels('T2', [-6, -6.1, -6, -5.95]), gained]),
		0,
	);
	expect(found.filter(({ test: id }) => id === 'adjuster-dead')).toEqual([]);
});

test('answers of triage, the 6 dB step and an adjuster that does nothing count by themselves', () => {
	const found = runEvidence(
		entries([
			{
				kind: 'step done',
				step: 'triage',
				pass: 1,
				answers: { hum: 'yes', quiet: 'yes', bias: 'no', avc: 'yes', 'b-plus': '62 V', 'b-plus-chart': '95 V' },
			},
			{ kind: '6 dB step', step: 's', stepDb: { value: 2.1, uncertainty: 0.1 }, verdict: 'too strong' },
			...levels('T1', [-10, -8, -6, -7]),
			turned('T1', 1),
			...levels('T2', [-6, -6.1, -6, -5.95]),
			turned('T2', -3),
		]),
		0,
	);
	expect(Object.fromEntries(found.map(({ test: id, outcome }) => [id, outcome]))).toEqual({
		'adjuster-dead': 'one',
		silence: 'quiet',
		'output-grid': 'positive',
		'avc-rest': 'nought',
		'b-plus': 'low',
		'six-db': 'less',
	});
});

test('a reading with the generator changed in between, or a turn that was hardly one, says nothing of an adjuster', () => {
	const found = runEvidence(
		entries([
			...levels('T1', [-6, -6, -6, -6]),
			turned('T1', 1),
			...levels('T2', [-6, -6, -6, -6]),
			{ kind: 'generator level', step: 's' },
			...levels('T2', [-6]),
			turned('T2', 3),
		]),
		0,
	);
	expect(found).toEqual([]);
});

test('a kept answer counts, one that this program does not know is passed over', () => {
	const found = runEvidence(
		entries([
			{ kind: 'test answered', trouble: 'hum', test: 'hum-pitch', outcome: 'twice', words: 'heard' },
			{ kind: 'test answered', trouble: 'hum', test: 'of-another-day', outcome: 'twice' },
		]),
		0,
	);
	expect(standingAnswers(found)).toEqual([
		{ test: 'hum-pitch', outcome: 'twice', words: 'heard', foundIn: 'troubles' },
	]);
});

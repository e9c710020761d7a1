import { expect, test } from 'vitest';
import type { RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';
import { afterSweepEntry, latestSeries, type RunSweep } from './sweep-log.ts';
import { sweepsAsked } from './sweep-question.ts';

const adjusters: readonly Adjuster[] = ['primary', 'secondary'].map((winding) => ({
	id: `if1-${winding}`,
	name: `T1 ${winding}`,
	stage: 'IF',
	transformer: 1,
	winding: winding as 'primary',
	kind: 'compression trimmer',
}));

/** The sweeps of a run whose happenings come in this order, one second apart. */
function sweepsOf(happenings: readonly RunEntry['what'][]): readonly RunSweep[] {
	return happenings.reduce<readonly RunSweep[]>(
		(sweeps, what, order) => afterSweepEntry(sweeps, { id: `e${order}`, run: 'run', order, atMs: 1000 * order, what }),
		[],
	);
}
const file = (sweep: string, count: number): RunEntry['what'] => ({
	kind: 'sweep file',
	sweep,
	file: 'levels.csv',
	points: Array.from({ length: count }, (_, index) => ({
		frequencyHz: 450e3 + 1e3 * index,
		levelDb: -index,
		uncertaintyDb: null,
	})),
});

test('a nudge, a setting of its partner and a proof stay together in the order of the work; a new base begins anew', () => {
	const happenings: RunEntry['what'][] = [
		{ kind: 'sweep begun', role: 'base' },
		file('e0', 11),
		{ kind: 'sweep begun', role: 'nudge', adjuster: 'if1-primary' },
		file('e2', 9),
		{ kind: 'sweep begun', role: 'setting', adjuster: 'if1-secondary', aimedHz: -2100, markHz: 447e3 },
		file('e4', 1),
		{ kind: 'sweep begun', role: 'proof' },
		file('e6', 11),
	];
	const asked = sweepsAsked(latestSeries(sweepsOf(happenings)), adjusters);
	expect(asked?.base).toHaveLength(11);
	expect(asked?.nudges.map(({ name, aimedHz, points }) => [name, aimedHz, points.length])).toEqual([
		['T1 primary', undefined, 9],
		['partner of T1 primary', -2100, 1],
		[null, undefined, 11],
	]);
	const anew = sweepsOf([...happenings, { kind: 'sweep begun', role: 'base' }, file('e8', 4)]);
	expect(sweepsAsked(latestSeries(anew), adjusters)).toBeNull();
});

test('a sweep has the name that was given last, and none when it was taken back', () => {
	const begun: RunEntry['what'][] = [{ kind: 'sweep begun', role: 'base' }];
	const named = (name: string): RunEntry['what'] => ({ kind: 'sweep named', sweep: 'e0', name });
	expect(sweepsOf([...begun, named('as found')])[0]?.name).toBe('as found');
	expect(sweepsOf([...begun, named('as found'), named(' ')])[0]?.name).toBeNull();
	expect(sweepsOf(begun)[0]?.begunAtMs).toBe(0);
});

import { measuredGenerators } from '#advice/marked-level.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import { ifStripFacts } from '#record/if-strip.ts';
import type { RunEntry } from '#record/run.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { RunState } from '../run-state.ts';
import { countingPoints, type RunSweep } from '../sweep-log.ts';
import { trueSweep } from '../true-sweep.ts';

/** How well each frequency of a sweep is known, hertz, by what was read with (chosen): a simulated and a programmed generator, a file, an old dial. */
const knownHz = { virtual: 0, programmed: 10, file: 100, dial: 2000 } as const;
const usualToneHz = 400;
/** Fewer points are no curve (chosen). */
const leastPoints = 8;

const isStripTurn = ({ what }: RunEntry, facts: SetFacts): boolean =>
	what.kind === 'adjusted' &&
	what.eighths !== 0 &&
	facts.adjusters.some(({ id, stage }) => id === what.adjuster && stage === 'IF');

/** Where a run's latest turn of the strip stands that no sweep followed as a nudge; -1 where there is none. */
function latestTurn(entries: readonly RunEntry[], facts: SetFacts): number {
	return entries.findLastIndex((entry, at) => {
		if (!isStripTurn(entry, facts)) return false;
		const next = entries.slice(at + 1).find(({ what }) => what.kind === 'sweep begun' || what.kind === 'adjusted');
		return next?.what.kind !== 'sweep begun' || next.what.role !== 'nudge';
	});
}

const generatorHz = (entries: readonly RunEntry[], { id }: RunSweep): number => {
	const read = entries.find(
		({ what }) => (what.kind === 'sweep point' || what.kind === 'sweep file') && what.sweep === id,
	)?.what;
	if (read?.kind === 'sweep file') return knownHz.file;
	return read?.kind === 'sweep point' && read.reading.instrument.startsWith('virtual ')
		? knownHz.virtual
		: knownHz.dial;
};

const plain = (sweep: RunSweep): ResponseQuestion['base'] =>
	countingPoints(sweep).map(({ frequencyHz, levelDb, uncertaintyDb }) => ({ frequencyHz, levelDb, uncertaintyDb }));

/** The sweeps of a run, marked levels corrected by what it knows of its generators. */
function trueSweeps({ sweeps, dial }: RunState): readonly RunSweep[] {
	const generators = measuredGenerators(dial.trials);
	return sweeps.map((sweep) => trueSweep(sweep, generators).sweep);
}

/** A curve that a program swept by itself, if the run's latest curve is one. */
function programmed(entries: readonly RunEntry[]): ResponseQuestion['base'] {
	const last = entries.findLast(({ what }) => what.kind === 'swept reading' && what.purpose === 'curve')?.what;
	if (last?.kind !== 'swept reading') return [];
	const levels = new Map<number, { sum: number; count: number }>();
	for (const { what } of entries) {
		if (what.kind !== 'swept reading' || what.sweep !== last.sweep || what.purpose !== 'curve') continue;
		if (what.levelV !== last.levelV || what.reading.levelDb === null) continue;
		const { sum, count } = levels.get(what.frequencyHz) ?? { sum: 0, count: 0 };
		levels.set(what.frequencyHz, { sum: sum + what.reading.levelDb.value, count: count + 1 });
	}
	return [...levels]
		.map(([frequencyHz, { sum, count }]) => ({ frequencyHz, levelDb: sum / count, uncertaintyDb: null }))
		.sort((one, other) => one.frequencyHz - other.frequencyHz);
}

/** The question to the curve that shows the strip as it stands now; `null` where none was read since the last turn. */
export function standingCurve(state: RunState, entries: readonly RunEntry[], facts: SetFacts): ResponseQuestion | null {
	const { ifHz } = facts;
	if (ifHz === null) return null;
	// A proof stands for itself here: what was turned before it is told by its own curve.
	const latest = state.sweeps.findLastIndex(({ role }) => role === 'base' || role === 'proof');
	const [base, ...rest] = trueSweeps(state).slice(Math.max(0, latest));
	const turned = latestTurn(entries, facts);
	const common = {
		ifHz,
		toneHz: usualToneHz,
		meterDb: null,
		aim: { kind: 'on IF' },
		windingCount: ifStripFacts(facts.card).windingCount,
	} as const;
	const isFresh = base !== undefined && entries.findIndex(({ id }) => id === base.id) > turned;
	const byHand = isFresh ? plain(base) : [];
	if (base && byHand.length >= leastPoints) {
		// Two curves that were read at one reading of the meter each are both true as they stand.
		const isHeld = base.points[0]?.reference.startsWith('generator ') === true;
		const second = isHeld ? null : rest.find(({ role, points }) => role === 'second level' && points.length >= 5);
		return {
			...common,
			base: byHand,
			second: second ? plain(second) : null,
			nudges: rest
				.filter((sweep) => sweep.role === 'nudge' && countingPoints(sweep).length >= 3)
				.map((sweep) => ({ name: sweep.adjuster ?? '', points: plain(sweep) })),
			generatorHz: generatorHz(entries, base),
		};
	}
	const swept = programmed(entries.slice(turned + 1));
	return swept.length < leastPoints
		? null
		: { ...common, base: swept, second: null, nudges: [], generatorHz: knownHz.programmed };
}

/** Curves of the strip as it stands that were read with the meter kept at one reading, by the generator's level: a weaker one shows the set at more gain. */
export function heldCurves(
	state: RunState,
	entries: readonly RunEntry[],
	facts: SetFacts,
): readonly { readonly points: ResponseQuestion['base']; readonly generatorDb: number }[] {
	const turned = latestTurn(entries, facts);
	const begun = entries.findLastIndex(({ what }) => what.kind === 'sweep begun' && what.role === 'nudge');
	const own = trueSweeps(state).filter((sweep) => {
		const [first] = countingPoints(sweep);
		return (
			entries.findIndex(({ id }) => id === sweep.id) > Math.max(turned, begun) &&
			countingPoints(sweep).length >= leastPoints &&
			first?.reference.startsWith('generator ') === true
		);
	});
	// The curve is the generator's level upside down.
	return own.map((sweep) => ({
		points: plain(sweep),
		generatorDb: -Math.max(...countingPoints(sweep).map(({ levelDb }) => levelDb)),
	}));
}

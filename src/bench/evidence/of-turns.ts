import type { TestAnswer } from '#advice/trouble/ranking.ts';
import { type LevelJumps, levelJumps } from '#core/estimate/level-jumps.ts';
import type { RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { FoundAnswer } from './found-answer.ts';

/** A turn of two eighths that moves the level by less than this does nothing (chosen). */
export const deadDb = 0.3;
/** A turn that moves it by this much does something (chosen). */
const aliveDb = 1;
const leastEighths = 2;
const leastReadings = 4;
/** A best further back than this is not at the stop (chosen). */
const backDb = 0.5;

/** One adjuster's turn with what was read during it. */
interface WorkedTurn {
	readonly adjuster: string;
	readonly eighths: number | null;
	readonly isAtStop: boolean;
	/** How far the best of the turn lies above where it ended; `null` where nothing was read. */
	readonly backDb: number | null;
	readonly levelsDb: readonly number[];
	/** What the turn gained as it was counted: it holds where the levels of a long turn are no longer in hand. */
	readonly gainDb: number;
	/** Read ten times a second by itself, off a screw that a hand turns. */
	readonly isLive: boolean;
}

/** Turns of a run with the levels read during each at one level of the generator. */
function workedTurns(entries: readonly RunEntry[]): readonly WorkedTurn[] {
	const turns: WorkedTurn[] = [];
	let levelsDb: number[] = [];
	let isLive = true;
	const anew = (): void => {
		levelsDb = [];
		isLive = true;
	};
	for (const { what } of entries) {
		if (what.kind === 'level' && what.purpose === 'live' && what.reading.trust === 'ok' && what.reading.levelDb) {
			levelsDb.push(what.reading.levelDb.value);
			// A typed reading comes when it comes, and the virtual set's screw moves by steps.
			if (what.reading.words !== undefined || what.reading.instrument === 'virtual set') isLive = false;
		}
		if (what.kind === 'generator level' || what.kind === 'step begun' || what.kind === 'resumed') anew();
		if (what.kind !== 'adjusted') continue;
		const { adjuster, eighths, bestDb, afterDb } = what;
		turns.push({
			adjuster,
			eighths,
			isAtStop: what.atStop === true,
			backDb: bestDb && afterDb ? Math.abs(bestDb.value - afterDb.value) : null,
			levelsDb,
			gainDb: what.gainDb?.value ?? 0,
			isLive,
		});
		anew();
	}
	return turns;
}

const spreadDb = (levels: readonly number[]): number => Math.max(...levels) - Math.min(...levels);

/** Whether adjusters answered. */
function ofDeadOnes(turns: readonly WorkedTurn[], nameOf: (adjuster: string) => string): readonly TestAnswer[] {
	const dead = new Set<string>();
	const alive = new Set<string>();
	for (const { adjuster, eighths, levelsDb, gainDb } of turns) {
		if (levelsDb.length < leastReadings) continue;
		const reachDb = Math.max(spreadDb(levelsDb), Math.abs(gainDb));
		if (reachDb >= aliveDb) {
			alive.add(adjuster);
			dead.delete(adjuster);
		} else if (reachDb < deadDb && Math.abs(eighths ?? 0) >= leastEighths) dead.add(adjuster);
	}
	if (dead.size > 0 && alive.size > 0) {
		const words = `${[...dead].map(nameOf).join(', ')}: less than ${deadDb} dB over the turn`;
		return [{ test: 'adjuster-dead', outcome: dead.size === 1 ? 'one' : 'before', words }];
	}
	if (dead.size > 1) return [{ test: 'adjuster-dead', outcome: 'none', words: `${dead.size} adjusters turned` }];
	return alive.size > 2 && dead.size === 0
		? [{ test: 'adjuster-dead', outcome: 'all', words: `${alive.size} adjusters moved the level` }]
		: [];
}

/** Adjusters that were left at a stop with their best there, and the way they had been turned. */
export function atStops(entries: readonly RunEntry[]): ReadonlyMap<string, 'tight' | 'loose'> {
	const found = new Map<string, 'tight' | 'loose'>();
	for (const { adjuster, eighths, isAtStop, backDb: back } of workedTurns(entries)) {
		if (eighths === 0) continue;
		if (isAtStop && eighths !== null && (back ?? 0) <= backDb) found.set(adjuster, eighths > 0 ? 'tight' : 'loose');
		else found.delete(adjuster);
	}
	return found;
}

/** Outcome of the test of ends for adjusters at their stops. */
function endOutcome(stops: ReadonlyMap<string, 'tight' | 'loose'>, adjusters: readonly Adjuster[]): string | null {
	const stopped = adjusters.filter(({ id }) => stops.has(id));
	const strip = stopped.filter(({ stage }) => stage === 'IF').map(({ id }) => stops.get(id));
	if (strip.length > 1 && new Set(strip).size === 1) return 'several';
	if (strip.length > 0) return `if-${strip[0]}`;
	const other = stopped.find(({ stage }) => stage === 'oscillator' || stage === 'antenna' || stage === 'RF');
	if (!other) return null;
	if (other.stage !== 'oscillator') return 'antenna';
	return other.end === 'low' || other.kind === 'slug' ? 'padder' : 'oscillator';
}

function ofEnds(
	entries: readonly RunEntry[],
	adjusters: readonly Adjuster[],
	missing: (adjuster: Adjuster) => string | null,
): readonly TestAnswer[] {
	const stops = atStops(entries);
	const outcome = endOutcome(stops, adjusters);
	if (outcome === null) return [];
	const words = adjusters
		.filter(({ id }) => stops.has(id))
		.map((adjuster) => {
			const lacks = missing(adjuster);
			return `${adjuster.name} best at its ${stops.get(adjuster.id)} stop${lacks === null ? '' : `, ${lacks}`}`;
		})
		.join('; ');
	return [{ test: 'adjuster-end', outcome, words }];
}

function ofJumps(turns: readonly WorkedTurn[], nameOf: (adjuster: string) => string): readonly TestAnswer[] {
	const jumps = turns.flatMap(({ adjuster, levelsDb, isLive }): { adjuster: string; found: LevelJumps }[] => {
		const found = isLive ? levelJumps(levelsDb) : null;
		return found === null ? [] : [{ adjuster, found }];
	});
	const last = jumps.at(-1);
	if (!last) return [];
	const { count, sizeDb } = last.found;
	const words = `${nameOf(last.adjuster)}: ${count} jumps of ${sizeDb.toFixed(1)} dB between the same two levels`;
	return [{ test: 'turn-step', outcome: 'jumps', words }];
}

/**
 * What the turns of adjusters say to the tests of trouble.
 * @param missing what an adjuster at its stop lacks, in words; `null` where no curve tells
 */
export function ofTurns(
	entries: readonly RunEntry[],
	adjusters: readonly Adjuster[],
	missing: (adjuster: Adjuster) => string | null,
): readonly FoundAnswer[] {
	const turns = workedTurns(entries);
	const nameOf = (id: string): string => adjusters.find((adjuster) => adjuster.id === id)?.name ?? id;
	return [...ofDeadOnes(turns, nameOf), ...ofEnds(entries, adjusters, missing), ...ofJumps(turns, nameOf)].map(
		(answer) => ({
			...answer,
			foundIn: 'adjusters',
		}),
	);
}

import { type LeastSquaresFit, leastSquares } from '#core/numeric/least-squares.ts';
import {
	jointModel,
	type NudgeGround,
	type NudgeRow,
	priorCount,
	sizeOf,
	still,
	type TurnBelief,
} from './nudge-model.ts';
import { levelFunction } from './response-model.ts';
import { stripModel, stripPlaces } from './strip-model.ts';
import type { StripIdea } from './strip-start.ts';

/** A strip with its nudges: which circuit each turned, 0 to 3, and the parameters with the sum that they reach. */
export interface Candidate {
	readonly circuits: readonly number[];
	readonly fit: LeastSquaresFit;
}

/** Better first. */
export const bySum = (one: Candidate, other: Candidate): number => one.fit.sum - other.fit.sum;

/** The minimum of all readings that is reached from some parameters. */
export function refined(
	ground: NudgeGround,
	circuits: readonly number[],
	start: Float64Array,
	steps: number,
): Candidate {
	const count = ground.rows.length + priorCount(ground.turns.length);
	return { circuits, fit: leastSquares(jointModel(ground, circuits), start, count, steps) };
}

/** Tunings after the last nudge, of each nudged adjuster and then of its partner, as shares of the IF. */
export function tuningsAfter({ circuits, fit: { parameters } }: Candidate): readonly number[] {
	const after = [0, 1, 2, 3].map((circuit) =>
		circuits.reduce(
			(sum, turned, nudge) => (turned === circuit ? sum + (parameters[stripPlaces.size + nudge] as number) : sum),
			parameters[circuit] as number,
		),
	);
	return circuits.flatMap((circuit) =>
		circuit === still ? [] : [after[circuit] as number, after[circuit ^ 1] as number],
	);
}

/** The farthest that two strips put the same adjuster's circuit or its partner's apart, over the IF. */
export function farthestApart(one: readonly number[], other: readonly number[]): number {
	return Math.max(...one.map((value, place) => Math.abs(value - (other[place] as number))));
}

/** The different ones of candidates that are sorted best first; closer than this share of the IF counts as the same. */
export function distinct(candidates: readonly Candidate[], sameShare: number): Candidate[] {
	const kept: { candidate: Candidate; places: readonly number[] }[] = [];
	for (const candidate of candidates) {
		const places = tuningsAfter(candidate);
		if (!kept.some((other) => farthestApart(other.places, places) < sameShare)) kept.push({ candidate, places });
	}
	return kept.map(({ candidate }) => candidate);
}

/** Tunings closer than this share of the IF are the same to a search: 0.3 kc at 455 kc (chosen). */
const sameTuning = 0.00065;

/** Turns tried, as shares of the IF: 0.5 to 9 kc at 455 kc, either way. */
const turnsTried = [0.0012, 0.0024, 0.0038, 0.0054, 0.0072, 0.0092, 0.0115, 0.015, 0.02].flatMap((turn) => [
	turn,
	-turn,
]);
/** Starts that are refined for each strip that is carried on to the next nudge (chosen). */
const startsPerStrip = 4.5;
/** Most points of a sweep that the search looks at, and the least uncertainty that it grants each, in decibels: it leaves the tone's sidebands out. */
const mostPoints = 15;
const coarseDb = 0.3;

/** The rows that a search looks at: some of each sweep's upper 35 dB. */
function thinned(rows: readonly NudgeRow[]): NudgeRow[] {
	const sweeps = [...new Set(rows.map(({ sweep }) => sweep))];
	return sweeps.flatMap((sweep) => {
		const own = rows.filter((row) => row.sweep === sweep);
		const peakDb = Math.max(...own.map(({ point }) => point.levelDb));
		const high = own.filter(({ point }) => point.levelDb > peakDb - 35);
		const every = Math.max(1, high.length / mostPoints);
		return Array.from({ length: Math.min(mostPoints, high.length) }, (_, index) => {
			const row = high[Math.floor(index * every)] as NudgeRow;
			return { ...row, sigmaDb: Math.hypot(row.sigmaDb, coarseDb) };
		});
	});
}

/** Circuits that a nudge may have turned: its own if its adjuster was nudged before, otherwise one that no other adjuster has. */
function circuitsFor(circuits: readonly number[], names: readonly (string | null)[]): readonly number[] {
	const nudge = circuits.length;
	const name = names[nudge] as string | null;
	if (name === null) return [still];
	const mate = names.indexOf(name.replace(/^partner of /, ''));
	if (name.startsWith('partner of ') && mate >= 0 && mate < nudge) return [(circuits[mate] as number) ^ 1];
	const before = names.indexOf(name);
	return before < nudge ? [circuits[before] as number] : [0, 1, 2, 3].filter((circuit) => !circuits.includes(circuit));
}

/** The two best turns of those tried, with how badly the levels after the nudge then fit. */
function likelyTurns(
	{ circuits, fit: { parameters } }: Candidate,
	circuit: number,
	rows: readonly NudgeRow[],
): readonly { turn: number; misfit: number }[] {
	const strip = parameters.slice(0, stripPlaces.size);
	for (const [nudge, turned] of circuits.entries())
		if (turned !== still) strip[turned] = (strip[turned] as number) + (parameters[stripPlaces.size + nudge] as number);
	const gainDb = parameters[stripPlaces.size + circuits.length] as number;
	const level = levelFunction(stripModel(), 0);
	const out = new Float64Array(stripPlaces.size + 1);
	const tried = turnsTried.map((turn) => {
		const moved = Float64Array.from(strip);
		moved[circuit] = (moved[circuit] as number) + turn;
		let misfit = 0;
		for (const { point, ratio } of rows) {
			level(moved, ratio, out);
			misfit += Math.min(100, (point.levelDb - (out[0] as number) - gainDb) ** 2);
		}
		return { turn, misfit };
	});
	return tried.sort((one, other) => one.misfit - other.misfit).slice(0, 2);
}

/** Parameters with room for one more nudge. */
function withTurn(parameters: Float64Array, nudgeCount: number, turn: number): Float64Array {
	const gainPlace = stripPlaces.size + nudgeCount;
	return Float64Array.from([...parameters.subarray(0, gainPlace), turn, ...parameters.subarray(gainPlace), 0]);
}

/** The ground as it stood after so many turns. */
export const groundAfter = (ground: NudgeGround, turnCount: number): NudgeGround => ({
	...ground,
	turns: ground.turns.slice(0, turnCount),
	rows: ground.rows.filter(({ sweep }) => sweep <= turnCount),
});

function afterNudge(
	ground: NudgeGround,
	held: readonly Candidate[],
	names: readonly (string | null)[],
	carried: number,
): Candidate[] {
	const nudgeCount = (held[0] as Candidate).circuits.length;
	const own = ground.rows.filter(({ sweep }) => sweep === nudgeCount + 1);
	const starts = held.flatMap((candidate) =>
		circuitsFor(candidate.circuits, names).flatMap((circuit) =>
			likelyTurns(candidate, circuit, own).map(({ turn, misfit }) => ({
				circuits: [...candidate.circuits, circuit],
				start: withTurn(candidate.fit.parameters, nudgeCount, turn),
				// The scatter that the search grants turns decibels into the sum's own measure.
				score: candidate.fit.sum + misfit / coarseDb ** 2 / 4,
			})),
		),
	);
	const found = starts
		.sort((one, other) => one.score - other.score)
		.slice(0, Math.round(carried * startsPerStrip))
		.map(({ circuits, start }) => refined(groundAfter(ground, nudgeCount + 1), circuits, start, 9))
		.sort(bySum);
	return distinct(found, sameTuning).slice(0, carried);
}

/**
 * A strip that was found from its nudges, taken on through what was turned and read since: a setting by the way that was meant for it, a further nudge by the turns that are likely, a sweep without a turn as it is.
 * @param names of all sweeps after the base, the strip's own nudges first
 */
export function followed(ground: NudgeGround, strip: Candidate, names: readonly (string | null)[]): Candidate {
	let held = strip;
	for (let sweep = strip.circuits.length + 1; sweep <= names.length; sweep++) {
		const { centre } = ground.turns[sweep - 1] as TurnBelief;
		const own = ground.rows.filter((row) => row.sweep === sweep);
		const starts = circuitsFor(held.circuits, names).flatMap((circuit) => {
			const isMeant = circuit === still || centre !== 0;
			const turns = isMeant ? [centre] : likelyTurns(held, circuit, own).map(({ turn }) => turn);
			return turns.map((turn) => ({ circuit, turn }));
		});
		const [best] = starts
			.map(({ circuit, turn }) =>
				refined(
					groundAfter(ground, sweep),
					[...held.circuits, circuit],
					withTurn(held.fit.parameters, sweep - 1, turn),
					12,
				),
			)
			.sort(bySum);
		if (!best) break;
		held = best;
	}
	return held;
}

/**
 * Strips that may be behind the readings, best first: each nudge's circuit and turn are tried on what the sweeps before it left possible.
 * @param names adjusters in the order of the nudges
 * @param carried how many strips are carried on from one nudge to the next
 */
export function searchStrips(
	ground: NudgeGround,
	ideas: readonly StripIdea[],
	names: readonly (string | null)[],
	carried: number,
): readonly Candidate[] {
	const coarse = { ...ground, rows: thinned(ground.rows), conditions: { ...ground.conditions, toneHz: 0 } };
	const alone = groundAfter(coarse, 0);
	const level = jointModel(alone, []);
	const count = alone.rows.length + priorCount(0);
	let held: readonly Candidate[] = ideas.map((idea) => {
		const start = Float64Array.from([...idea, 0]);
		const residuals = new Float64Array(count);
		level(start, residuals, new Float64Array(count * sizeOf(0)));
		const apart = alone.rows.map(({ sigmaDb }, row) => (residuals[row] as number) * sigmaDb);
		start[stripPlaces.size] = apart.sort((one, other) => one - other)[apart.length >> 1] as number;
		start[stripPlaces.feedback] = ground.feedback.centre;
		return refined(alone, [], start, 4);
	});
	for (const _ of names) held = afterNudge(coarse, held, names, carried);
	return held;
}

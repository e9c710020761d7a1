import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { SweepRole } from '#record/sweep-reading.ts';
import { countingPoints, type RunSweep } from './sweep-log.ts';

/** Fewest points of a sweep that shows a curve, and of one after a nudge. */
const fewestOfCurve = 5;
const fewestOfNudge = 3;

/** The readings of a sweep that count, as points of a curve. */
export function curvePoints(sweep: RunSweep): readonly CurvePoint[] {
	return countingPoints(sweep).map(({ frequencyHz, levelDb, uncertaintyDb }) => ({
		frequencyHz,
		levelDb,
		uncertaintyDb,
	}));
}

/** What the fit calls an adjuster: by its own name once it was nudged, otherwise as the partner of the one that was nudged in its can. */
function fitName(id: string, nudged: ReadonlySet<string>, adjusters: readonly Adjuster[]): string {
	const own = adjusters.find((adjuster) => adjuster.id === id);
	const mate = adjusters.find(
		(adjuster) =>
			adjuster.id !== id &&
			nudged.has(adjuster.id) &&
			adjuster.stage === 'IF' &&
			own?.transformer !== undefined &&
			adjuster.transformer === own.transformer,
	);
	return !nudged.has(id) && mate ? `partner of ${mate.name}` : (own?.name ?? id);
}

/**
 * What the sweeps since the latest base ask: the base, all that was turned and read since, and the base sweep at another level. `null` while the base has too few points.
 * @param series the latest base first
 */
export function sweepsAsked(
	series: readonly RunSweep[],
	adjusters: readonly Adjuster[],
): Pick<ResponseQuestion, 'base' | 'nudges' | 'second'> | null {
	const [base, ...rest] = series;
	const points = base ? curvePoints(base) : [];
	if (new Set(points.map(({ frequencyHz }) => frequencyHz)).size < fewestOfCurve) return null;
	const nudged = new Set<string>();
	const nudges: Nudge[] = [];
	for (const sweep of rest) {
		const read = curvePoints(sweep);
		const { adjuster, role, aimedHz } = sweep;
		if (role === 'nudge' && adjuster !== null && read.length >= fewestOfNudge) {
			nudged.add(adjuster);
			nudges.push({ name: fitName(adjuster, nudged, adjusters), points: read });
		} else if (role === 'setting' && adjuster !== null && aimedHz !== null)
			nudges.push({ name: fitName(adjuster, nudged, adjusters), points: read, aimedHz });
		else if (role === 'proof' && read.length >= fewestOfCurve) nudges.push({ name: null, points: read });
	}
	const second = rest.find((sweep) => sweep.role === 'second level' && countingPoints(sweep).length >= fewestOfCurve);
	return { base: points, nudges, second: second ? curvePoints(second) : null };
}

const roleWords: Readonly<Record<SweepRole, string>> = {
	base: 'as it stands',
	nudge: 'after a nudge of',
	'second level': 'at another level',
	setting: 'after setting',
	proof: 'proof',
};

/** What a sweep is called: its own name, or what it was read for. */
export function sweepTitle({ name, role, adjuster }: RunSweep, adjusters: readonly Adjuster[]): string {
	if (name !== null) return name;
	if (adjuster === null) return roleWords[role];
	return `${roleWords[role]} ${adjusters.find(({ id }) => id === adjuster)?.name ?? adjuster}`;
}

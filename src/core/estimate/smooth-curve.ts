import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';
import type { CurvePoint } from './level-noise.ts';

/** A measured curve at one frequency: level and slope, with the standard uncertainties that come from scatter of the readings. */
export interface SmoothPoint {
	readonly frequencyHz: number;
	readonly levelDb: number;
	readonly levelUncertaintyDb: number;
	readonly slopeDbPerHz: number;
	readonly slopeUncertaintyDbPerHz: number;
	/** Second derivative. */
	readonly bendDbPerHzSquared: number;
}

/** Half the stretch that a local polynomial looks at, in hertz, where the points lie close enough: about one and a half half widths of a tuned circuit of Q 80 at 455 kc (chosen: a wider one rounds off a flat top, a narrower one lets the scatter through). */
const reachHz = 4500;
const fewest = 5;

/** A local polynomial through the nearest readings, weighed by distance and uncertainty: of fourth degree where there are eight, a cubic through five where there are fewer. */
export function smoothAt(points: readonly CurvePoint[], meterDb: number, frequencyHz: number): SmoothPoint {
	const near = points
		.map((point) => ({ ...point, awayHz: Math.abs(point.frequencyHz - frequencyHz) }))
		.sort((one, other) => one.awayHz - other.awayHz);
	const fifth = (near[Math.min(fewest, near.length) - 1] as { awayHz: number }).awayHz;
	const spanHz = Math.max(reachHz, 1.25 * fifth);
	const used = near.filter(({ awayHz }) => awayHz < spanHz);
	const different = new Set(used.map((point) => point.frequencyHz)).size;
	const order = different >= 8 ? 5 : Math.min(4, different);
	const normal = new Float64Array(order * order);
	const right = new Float64Array(order);
	for (const { frequencyHz: atHz, levelDb, uncertaintyDb, awayHz } of used) {
		const sigma = Math.max(meterDb, uncertaintyDb ?? 0);
		const weight = (1 - (awayHz / spanHz) ** 3) ** 3 / sigma ** 2;
		const x = (atHz - frequencyHz) / spanHz;
		for (let row = 0; row < order; row++) {
			right[row] = (right[row] as number) + weight * x ** row * levelDb;
			for (let column = 0; column < order; column++)
				normal[row * order + column] = (normal[row * order + column] as number) + weight * x ** (row + column);
		}
	}
	for (let row = 0; row < order; row++) {
		const at = row * order + row;
		normal[at] = (normal[at] as number) * (1 + 1e-9);
	}
	const [levelDb = 0, slope = 0, bend = 0] = symmetricSolve(normal, right);
	const spread = (place: number): number => {
		const unit = new Float64Array(order);
		unit[place] = 1;
		return Math.sqrt(symmetricSolve(normal, unit)[place] as number);
	};
	return {
		frequencyHz,
		levelDb,
		levelUncertaintyDb: spread(0),
		slopeDbPerHz: slope / spanHz,
		slopeUncertaintyDbPerHz: order > 1 ? spread(1) / spanHz : Number.POSITIVE_INFINITY,
		bendDbPerHzSquared: (2 * bend) / spanHz ** 2,
	};
}

/** The curve at evenly spaced frequencies from the first reading to the last. */
export function smoothCurve(points: readonly CurvePoint[], meterDb: number, count = 241): readonly SmoothPoint[] {
	const firstHz = (points[0] as CurvePoint).frequencyHz;
	const lastHz = (points.at(-1) as CurvePoint).frequencyHz;
	return Array.from({ length: count }, (_, index) =>
		smoothAt(points, meterDb, firstHz + ((lastHz - firstHz) * index) / (count - 1)),
	);
}

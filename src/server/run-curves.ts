import { type KnownGenerator, truthOf } from '#advice/generator-place.ts';
import type { MeasuredGenerator } from '#advice/marked-level.ts';
import type { DialWork } from '#bench/dial-work.ts';
import { countingPoints, type RunSweep } from '#bench/sweep-log.ts';
import { trueSweep } from '#bench/true-sweep.ts';
import type { ChartPoint } from '#draw/response-chart.ts';
import type { DialErrors, ReportPaper } from '#report/report-paper.ts';

/** Fewest points that are drawn as a curve. */
const fewestPoints = 5;

/** A sweep below its own peak; one with too few points on one reference is none. */
function curveOf(sweep: RunSweep): readonly ChartPoint[] {
	const points = countingPoints(sweep).filter(({ reference }, _, [first]) => reference === first?.reference);
	if (points.length < fewestPoints) return [];
	const peakDb = Math.max(...points.map(({ levelDb }) => levelDb));
	return points.map(({ frequencyHz, levelDb, uncertaintyDb }) => ({
		frequencyHz,
		levelDb: levelDb - peakDb,
		uncertaintyDb,
	}));
}

/** The first curve of the set as it stood, and the last; marked levels corrected by what is known of their generator. */
export function curvesOf(
	sweeps: readonly RunSweep[],
	generators: readonly MeasuredGenerator[] = [],
): ReportPaper['curves'] {
	const curves = sweeps
		.map((sweep) => trueSweep(sweep, generators).sweep)
		.filter(({ role }) => role === 'base' || role === 'proof')
		.map((sweep) => ({ points: curveOf(sweep), file: sweep.file }))
		.filter(({ points }) => points.length > 0);
	const left = curves.at(-1);
	const found = curves.length > 1 ? curves[0] : undefined;
	return left
		? { found: found?.points ?? [], left: left.points, files: [found?.file, left.file].flatMap((file) => file ?? []) }
		: null;
}

/** How far each band's dial was off in the first pass of readings and in the last. */
export function dialErrorsOf(dial: DialWork, generators: readonly KnownGenerator[]): readonly DialErrors[] {
	const readings = dial.readings.map(({ reading }) => {
		const own = generators.find(({ name }) => name === (reading.generator ?? ''));
		const heardHz = reading.source === 'generator' ? truthOf(own, reading.heardHz).value : reading.heardHz;
		return { ...reading, errorHz: heardHz - reading.dialHz };
	});
	return [...new Set(readings.map(({ band }) => band))].map((band) => {
		const own = readings.filter((reading) => reading.band === band);
		const passes = own.map(({ pass }) => pass);
		const of = (wanted: number) =>
			[...new Set(own.filter(({ pass }) => pass === wanted).map(({ dialHz }) => dialHz))]
				.sort((a, b) => a - b)
				.map((dialHz) => {
					const same = own.filter((reading) => reading.pass === wanted && reading.dialHz === dialHz);
					return { dialHz, errorHz: same.reduce((sum, { errorHz }) => sum + errorHz, 0) / same.length };
				});
		const [first, last] = [Math.min(...passes), Math.max(...passes)];
		return { band, found: of(first), left: last > first ? of(last) : [] };
	});
}

import { createRandom } from '#core/numeric/random.ts';
import type { GeneratorPlace, SetSignal } from './signal.ts';

/** One range of the dial, and how its scale misses what the coil gives, as shares of the frequency. */
interface DialRange {
	readonly lowHz: number;
	readonly highHz: number;
	/** All along the scale, as a trimmer or a coil that moved does. */
	readonly offShare: number;
	/** From its middle to its high end. */
	readonly tiltShare: number;
	/** Of the plates' own shape, once up and down along the scale. */
	readonly waveShare: number;
}

/** An old service generator: what its dial, its attenuator and its marks are worth. All of it is invented. */
export interface ServiceGenerator {
	readonly ranges: readonly DialRange[];
	/** Play of the drive: the dial moves so far before the plates follow, as share of the frequency. */
	readonly slopShare: number;
	/** By which each place of the attenuator's switch gives more than it is marked with, weakest first, decibels; a place is ten times the one before. */
	readonly placesDb: readonly number[];
	/** By which the fine control gives more at the low end of its scale than at its mark 1. */
	readonly fineDb: number;
	/** What gets out past the attenuator, lead or no lead, as open-circuit volts at the lead. */
	readonly leakV: number;
	/** True depth of modulation to what is marked. */
	readonly depthTimes: number;
	/** True tone to what is marked. */
	readonly toneTimes: number;
	/** Harmonics 2, 3 and 4 to the fundamental. */
	readonly harmonics: readonly number[];
	/** How far below its warm frequency it begins, as share, and how fast that goes. */
	readonly coldShare: number;
	readonly warmingS: number;
}

/** Ranges as such dials have them (chosen). */
const rangesHz = [
	[120e3, 400e3],
	[370e3, 1150e3],
	[1050e3, 3400e3],
	[3200e3, 10e6],
	[9.5e6, 30e6],
] as const;
/** Most that a seeded generator is off, either way (chosen: the dial after [eddystone-659], that few are better than 1 %; the rest common practice). */
const most = {
	offShare: 0.01,
	tiltShare: 0.006,
	waveShare: 0.0015,
	placeDb: 2.5,
	fineDb: 2,
	toneShare: 0.03,
} as const;
/** The weakest place of the switch is marked with this, volts at the fine control's mark 1. */
const weakestPlaceV = 1e-5;

/** An old service generator; the same seed gives the same one. */
export function serviceGenerator(seed: number): ServiceGenerator {
	const random = createRandom(seed);
	const either = (): number => 2 * random.uniform() - 1;
	const between = (least: number, greatest: number): number => least + (greatest - least) * random.uniform();
	return {
		ranges: rangesHz.map(([lowHz, highHz]) => ({
			lowHz,
			highHz,
			offShare: most.offShare * either(),
			tiltShare: most.tiltShare * either(),
			waveShare: most.waveShare * either(),
		})),
		slopShare: between(0.0002, 0.0006),
		placesDb: rangesHz.map(() => most.placeDb * either()),
		fineDb: most.fineDb * either(),
		leakV: 1e-6 * between(8, 40),
		depthTimes: between(0.6, 1.5),
		toneTimes: 1 + most.toneShare * either(),
		harmonics: [between(0.08, 0.25), between(0.03, 0.1), between(0.01, 0.05)],
		coldShare: between(0.002, 0.004),
		warmingS: between(300, 500),
	};
}

/** Where the drive has left the plates, as a frequency on the dial, once the dial was moved: they follow only when its play is used up. */
export function drivenTo({ slopShare }: ServiceGenerator, platesHz: number, dialHz: number): number {
	const half = (dialHz * slopShare) / 2;
	return Math.min(Math.max(platesHz, dialHz - half), dialHz + half);
}

/**
 * What it gives with its plates where the dial would say `platesHz` if it had no play.
 * @param onForS since it was switched on
 */
export function generatorHz(
	{ ranges, coldShare, warmingS }: ServiceGenerator,
	platesHz: number,
	onForS: number,
): number {
	const range = ranges.find(({ highHz }) => platesHz <= highHz) ?? ranges.at(-1);
	if (!range) return platesHz;
	const along = Math.log(platesHz / range.lowHz) / Math.log(range.highHz / range.lowHz);
	const scaleShare =
		range.offShare + range.tiltShare * (2 * along - 1) + range.waveShare * Math.sin(2 * Math.PI * along);
	return platesHz * (1 + scaleShare) * (1 - coldShare * Math.exp(-Math.max(onForS, 0) / warmingS));
}

/** What its attenuator gives where it is marked with a level, volts; what leaks past it is apart. */
export function attenuatedV({ placesDb, fineDb }: ServiceGenerator, markedV: number): number {
	const place = Math.min(Math.max(Math.ceil(Math.log10(markedV / weakestPlaceV) - 1e-9), 0), placesDb.length - 1);
	const fine = markedV / (weakestPlaceV * 10 ** place);
	const errorDb = (placesDb[place] ?? 0) + fineDb * Math.min(Math.max(-Math.log10(fine), 0), 1);
	return markedV * 10 ** (errorDb / 20);
}

/** How the hand has set it: dial, marked level and lead. */
export interface ServiceSetting {
	/** Its dial, tone and depth as marked. */
	readonly place: GeneratorPlace;
	readonly platesHz: number;
	readonly markedV: number;
	readonly isLeadOn: boolean;
	readonly onForS: number;
}

/** What a set gets from it: its own frequency, then harmonics 2, 3 and 4. */
export function serviceSignals(generator: ServiceGenerator, setting: ServiceSetting): readonly SetSignal[] {
	const { place, platesHz, markedV, isLeadOn, onForS } = setting;
	const toneHz = place.toneHz * generator.toneTimes;
	const byLeadV = isLeadOn ? attenuatedV(generator, markedV) : 0;
	// Its tone alone has neither harmonics of the carrier nor its leak.
	if (place.into === 'audio grid') return [{ ...place, toneHz, levelV: byLeadV }];
	const frequencyHz = generatorHz(generator, platesHz, onForS);
	// The leak comes by other ways than the lead: neither in step nor out of step.
	const levelV = Math.hypot(byLeadV, generator.leakV);
	const depth = Math.min(place.depth * generator.depthTimes, 1);
	return [1, ...generator.harmonics].map((share, k) => ({
		...place,
		frequencyHz: (k + 1) * frequencyHz,
		toneHz,
		depth,
		levelV: share * levelV,
	}));
}

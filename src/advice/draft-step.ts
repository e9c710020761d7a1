import { simpleDummy } from '#core/circuit/dummy-antenna.ts';
import { capacitanceWords, resistanceWords } from '#record/quantity-words.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { adjusterCautions, soundCardCaution } from './cautions.ts';
import type { GeneratorRow, HookUp, Indicator, SheetOptions, SheetStep } from './sheet-step.ts';

/** A step before it has its number. */
export type DraftStep = Omit<SheetStep, 'number'>;

/** What every part of the sheet is made from. */
export interface SheetGround {
	readonly facts: SetFacts;
	readonly options: SheetOptions;
}

type Told = Pick<DraftStep, 'id' | 'group' | 'kind' | 'title' | 'instructions'> & Partial<DraftStep>;

/** A step in which only what differs from nothing is told; cautions of its adjusters come by themselves. */
export function draftStep({ facts }: SheetGround, told: Told): DraftStep {
	return {
		band: null,
		hookUp: null,
		generator: null,
		dial: null,
		adjusters: [],
		aim: null,
		rock: false,
		indicator: null,
		questions: [],
		remarks: [],
		repeat: [],
		...told,
		cautions: [
			...adjusterCautions(facts, told.adjusters ?? []),
			...(told.indicator?.quantity === 'tone' ? [soundCardCaution(facts)] : []),
			...(told.cautions ?? []),
		],
	};
}

/** Adjusters that may be turned: stuck, broken, sealed and cracked ones are left alone. */
export function turnable(adjusters: readonly Adjuster[]): readonly Adjuster[] {
	return adjusters.filter(
		({ condition }) => condition === undefined || condition === 'free' || condition === 'unknown',
	);
}

/** Where the level is read: as chosen, unless what is chosen shows nothing with this generator or this AVC. */
export function indicator({ facts, options }: SheetGround): Indicator {
	// Without modulation there is no tone; a station's programme is no steady one.
	const isCarrierRead = options.meter === 'AVC volts' || options.generator !== 'modulated';
	if (!isCarrierRead) {
		return options.meter === 'tone'
			? {
					quantity: 'tone',
					where: 'microphone before the speaker, or sound card through its transformer at the voice coil',
				}
			: { quantity: 'AC volts', where: 'voice coil, AC meter' };
	}
	return facts.avc === 'simple'
		? { quantity: 'AVC volts', where: 'AVC line to common, DC meter of 10 megohms or more' }
		: {
				quantity: 'DC volts',
				where: `detector load (the volume control) to common, DC meter of 10 megohms or more: ${facts.avc === 'none' ? 'there is no AVC' : 'delayed AVC shows nothing of a weak signal'}`,
			};
}

/** Ground lead of the generator: to the true return, which is not the chassis in every set. */
export function groundLead({ facts }: SheetGround): string {
	if (facts.common === 'separate B-minus') return 'B-minus (not the chassis)';
	if (facts.common === 'unknown' && facts.liveChassis)
		return 'the true return: trace B-minus first; do not take the chassis for it';
	return 'chassis';
}

/** The generator's row: 400 c and 30 % are the customary test modulation, [kennedy] (text seen). */
export function generatorRow({ options }: SheetGround, frequencyHz: number | null, words: string): GeneratorRow {
	const modulated = options.generator === 'modulated';
	return {
		frequencyHz,
		modulated,
		toneHz: 400,
		depth: modulated ? 0.3 : 0,
		levelRule:
			options.attenuator === 'fine'
				? 'As weak as will serve; weaker again as the peak grows.'
				: 'As weak as will serve: switch the 6 and 20 dB pad behind the generator in, and weaker again as the peak grows.',
		words: modulated ? `${words}, 400 c, 30 %` : `${words}, no modulation`,
	};
}

/** The generator's lead beside the set: nothing touches, and nothing is earthed. */
export function looseHookUp(beside: string): HookUp {
	return {
		connection: 'loose coupling',
		point: `well insulated lead beside ${beside}`,
		dummy: 'none',
		why: 'no part of the generator touches the set; the level at the set is not known, so that readings are relative',
		ground: 'none',
	};
}

/** Into the antenna terminal through a dummy antenna, or to the set's own loop or rod without contact. */
export function antennaHookUp(ground: SheetGround, frequencyHz: number): HookUp {
	const { antenna } = ground.facts;
	if (antenna === 'loop' || antenna === 'rod') {
		return {
			connection: 'loop',
			point: `a few turns of wire, a foot or so from the set's ${antenna}`,
			dummy: 'none',
			why: `the set's own ${antenna} stays in its place and is coupled through the air, never clipped`,
			ground: 'none',
		};
	}
	if (ground.options.coupling === 'loose') return looseHookUp('the antenna lead, a foot of both');
	// Below 1,700 kc 200 mmf, above it 400 ohms: simplified dummy of the period, [radioexperimenter] (seen); car aerials: common practice.
	const [dummy, stands] =
		antenna === 'car'
			? ['30 mmf in series, 30 mmf across', 'the car\u2019s rod and its cable']
			: frequencyHz <= simpleDummy.upToHz
				? [`${capacitanceWords(simpleDummy.seriesF)} in series`, 'a wire antenna, which is a capacitance here']
				: [`${resistanceWords(simpleDummy.aboveOhm)} in series`, 'a wire antenna, which is a resistance here'];
	return {
		connection: 'antenna through dummy',
		point: 'antenna terminal',
		dummy,
		why: `it stands for ${stands}, so that the first circuit is tuned as it will be used`,
		ground: groundLead(ground),
	};
}

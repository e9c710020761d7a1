import { simpleDummy } from '#core/circuit/dummy-antenna.ts';
import type { Language } from '#record/language.ts';
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
	/** As the options have it. */
	readonly language: Language;
}

type Told = Pick<DraftStep, 'id' | 'group' | 'kind' | 'title' | 'instructions'> & Partial<DraftStep>;

/** A step in which only what differs from nothing is told; cautions of its adjusters come by themselves. */
export function draftStep({ facts, language }: SheetGround, told: Told): DraftStep {
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
			...adjusterCautions(facts, told.adjusters ?? [], language),
			...(told.indicator?.quantity === 'tone' ? [soundCardCaution(facts, language)] : []),
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
export function indicator({ facts, options, language: { say } }: SheetGround): Indicator {
	// Without modulation there is no tone; a station's programme is no steady one.
	const isCarrierRead = options.meter === 'AVC volts' || options.generator !== 'modulated';
	if (!isCarrierRead) {
		return options.meter === 'tone'
			? {
					quantity: 'tone',
					where: say`microphone before the speaker, or sound card through its transformer at the voice coil`,
				}
			: { quantity: 'AC volts', where: say`voice coil, AC meter` };
	}
	return facts.avc === 'simple'
		? { quantity: 'AVC volts', where: say`AVC line to common, DC meter of 10 megohms or more` }
		: {
				quantity: 'DC volts',
				where:
					facts.avc === 'none'
						? say`detector load (the volume control) to common, DC meter of 10 megohms or more: there is no AVC`
						: say`detector load (the volume control) to common, DC meter of 10 megohms or more: delayed AVC shows nothing of a weak signal`,
			};
}

/** Ground lead of the generator: to the true return, which is not the chassis in every set. */
export function groundLead({ facts, language: { say } }: Pick<SheetGround, 'facts' | 'language'>): string {
	if (facts.common === 'separate B-minus') return say`B-minus (not the chassis)`;
	if (facts.common === 'unknown' && facts.liveChassis)
		return say`the true return: trace B-minus first; do not take the chassis for it`;
	return say`chassis`;
}

/** The generator's row: 400 c and 30 % are the customary test modulation, [kennedy] (text seen). */
export function generatorRow(
	{ options, language: { say } }: SheetGround,
	frequencyHz: number | null,
	words: string,
): GeneratorRow {
	const modulated = options.generator === 'modulated';
	return {
		frequencyHz,
		modulated,
		toneHz: 400,
		depth: modulated ? 0.3 : 0,
		levelRule:
			options.attenuator === 'fine'
				? say`As weak as will serve; weaker again as the peak grows.`
				: say`As weak as will serve: switch the 6 and 20 dB pad behind the generator in, and weaker again as the peak grows.`,
		words: modulated ? say`${words}, 400 c, 30 %` : say`${words}, no modulation`,
	};
}

/** The generator's lead beside the set: nothing touches, and nothing is earthed. */
export function looseHookUp({ language: { say } }: SheetGround, beside: string): HookUp {
	return {
		connection: 'loose coupling',
		point: say`well insulated lead beside ${beside}`,
		dummy: 'none',
		why: say`no part of the generator touches the set; the level at the set is not known, so that readings are relative`,
		ground: 'none',
	};
}

/** Into the antenna terminal through a dummy antenna, or to the set's own loop or rod without contact. */
export function antennaHookUp(ground: SheetGround, frequencyHz: number): HookUp {
	const { antenna } = ground.facts;
	const { say, term } = ground.language;
	if (antenna === 'loop' || antenna === 'rod') {
		return {
			connection: 'loop',
			point: say`a few turns of wire, a foot or so from the set's ${term(antenna)}`,
			dummy: 'none',
			why: say`the set's own ${term(antenna)} stays in its place and is coupled through the air, never clipped`,
			ground: 'none',
		};
	}
	if (ground.options.coupling === 'loose') return looseHookUp(ground, say`the antenna lead, a foot of both`);
	// Below 1,700 kc 200 mmf, above it 400 ohms: simplified dummy of the period, [radioexperimenter] (seen); car aerials: common practice.
	const [dummy, stands] =
		antenna === 'car'
			? [say`30 mmf in series, 30 mmf across`, say`the car\u2019s rod and its cable`]
			: frequencyHz <= simpleDummy.upToHz
				? [say`${capacitanceWords(simpleDummy.seriesF)} in series`, say`a wire antenna, which is a capacitance here`]
				: [say`${resistanceWords(simpleDummy.aboveOhm)} in series`, say`a wire antenna, which is a resistance here`];
	return {
		connection: 'antenna through dummy',
		point: say`antenna terminal`,
		dummy,
		why: say`it stands for ${stands}, so that the first circuit is tuned as it will be used`,
		ground: groundLead(ground),
	};
}

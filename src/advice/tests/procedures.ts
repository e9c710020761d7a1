import { type Language, usualLanguage } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestName, TestReading } from '#record/test-reading.ts';
import { antennaHookUp, groundLead } from '../draft-step.ts';
import { usualOptions } from '../sheet-options.ts';
import type { HookUp } from '../sheet-step.ts';
import { testAsks } from './asks.ts';
import { ReadingBook, usualLoadOhm } from './finding.ts';
import { isThroughAir } from './marks.ts';
import type { Finding, StandardTest, TestSource } from './standard-test.ts';

type Told = Omit<StandardTest, 'hookUp' | 'cannot' | 'asks'>;

const told = ({ say }: Language): readonly Told[] => [
	{
		name: 'sensitivity',
		title: say`Sensitivity`,
		measures: say`how little signal behind the dummy antenna gives 50 mW of a 400 c tone at 30 % modulation`,
		source: { words: say`Kennedy, as quoted on a teaching page: 400 c, 30 %, 50 mW [kennedy]`, status: 'seen' },
		steps: [
			say`Warm up half an hour. Volume full up, tone control bright.`,
			say`Pointer on the mark, generator tuned to the set, attenuator for the standard output.`,
		],
		budget: [
			say`generator's volts`,
			say`output meter`,
			say`setting the output`,
			say`last digit`,
			say`setting the pointer`,
		],
	},
	{
		name: 'signal to noise',
		title: say`Signal to noise`,
		measures: say`how far the tone stands above the noise at the input for the standard output, modulation on against off`,
		source: { words: say`modulation on and off, as reported of a receiver specification`, status: 'common practice' },
		steps: [say`The meter must read true volts of everything, not the tone alone.`],
		budget: [say`output meter over this range`, say`last digits`],
	},
	{
		name: 'selectivity',
		title: say`Selectivity`,
		measures: say`how much more input gives the same output off tune: widths at 2, 10, 100 and 1,000 times, and one channel away`,
		source: { words: say`input ratio for the same output; the times are customary`, status: 'from memory' },
		steps: [
			say`The output is the same in every reading, so the detector and AVC stand the same: AVC does not falsify the ratio.`,
			say`Come in from far, so that the outermost edge is found.`,
		],
		budget: [say`attenuator steps`, say`setting the output`, say`reading the frequencies`, say`last digits`],
	},
	{
		name: 'rejection',
		title: say`Image and IF rejection`,
		measures: say`how much more input the image and a signal at the IF need for the same output`,
		source: {
			words: say`ratio of inputs for the same output; image at the dial and twice the IF with the oscillator above`,
			status: 'from memory',
		},
		steps: [say`The pointer stays; only the generator moves.`],
		budget: [say`attenuator steps`, say`setting the output`, say`last digits`],
	},
	{
		name: 'AVC',
		title: say`AVC`,
		measures: say`how the output follows the input, and how far the input may fall from 100 mV until the output is 10 dB down`,
		source: { words: say`one of several usages; the starting level differs between them`, status: 'from memory' },
		steps: [say`Volume is set once at 100 mV and then left.`],
		budget: [say`generator's volts`, say`output meter over this range`, say`attenuator steps`, say`setting the output`],
	},
	{
		name: 'output',
		title: say`Greatest undistorted output`,
		measures: say`the power into the load at 10 % distortion`,
		source: { words: say`10 % is customary`, status: 'from memory' },
		steps: [say`Never run the output stage without its load.`],
		budget: [say`output meter`, say`last digit`],
	},
	{
		name: 'distortion',
		title: say`Distortion`,
		measures: say`distortion of the 400 c tone at the standard output, 1 mV input`,
		source: { words: say`level and output are customary`, status: 'common practice' },
		steps: [say`The generator's own modulation is part of what is read.`],
		budget: [say`distortion meter`, say`last digit`],
	},
	{
		name: 'audio response',
		title: say`Audio response`,
		measures: say`the output at other tones against 400 c, from the modulated signal to the voice coil, IF sidebands included`,
		source: { words: say`tones are chosen; the way is custom of the trade`, status: 'common practice' },
		steps: [
			say`The generator's modulation must stay at 30 % at every tone; where it cannot change its tone, leave this out.`,
		],
		budget: [say`output meter over this range`, say`last digits`, say`reading it again`],
	},
	{
		name: 'hum',
		title: say`Hum and noise`,
		measures: say`what is left at the output without a signal, below the standard output`,
		source: { words: say`custom of the trade`, status: 'common practice' },
		steps: [say`With the volume down what is left comes from supply and output stage.`],
		budget: [say`output meter`, say`last digit`],
	},
	{
		name: 'oscillator',
		title: say`Oscillator across the band`,
		measures: say`whether the oscillator runs at five places of the dial, and where`,
		source: { words: say`custom of the trade`, status: 'common practice' },
		steps: [say`Nothing is connected to the oscillator: a probe would move it.`],
		budget: [say`reading the frequency`, say`setting the pointer`],
	},
	{
		name: 'stage gain',
		title: say`Stage by stage`,
		measures: say`the input at each grid for the same output: where the gain is, and where it is lost`,
		source: { words: say`signal substitution through 0.1 mfd, as in period handbooks`, status: 'common practice' },
		steps: [say`Each move of the lead: set unplugged, discharged, proved dead.`],
		budget: [say`attenuator steps`, say`setting the output`, say`last digits`],
	},
];

/** Where the source is listed: for readers of the code and of its sources. */
const sourceKey = / ?\[[^\]]*\]/g;

/** What a procedure follows and what stands behind it, in words for a reader. */
export function sourceWords({ words, status }: TestSource, { say }: Language): string {
	const statuses: Readonly<Record<TestSource['status'], string>> = {
		seen: say`source read`,
		'from memory': say`custom, from memory`,
		'common practice': say`common practice`,
		chosen: say`chosen here`,
	};
	return `${words.replace(sourceKey, '')} (${statuses[status]})`;
}

/** What a finding's test is called and what it follows. */
export function followed(test: Finding['test'], language: Language): Pick<StandardTest, 'title' | 'source'> {
	const { say } = language;
	const dial: Pick<StandardTest, 'title' | 'source'> = {
		title: say`Dial errors`,
		source: { words: say`frequency received against the mark; custom of the trade`, status: 'common practice' },
	};
	return told(language).find(({ name }) => name === test) ?? dial;
}

/** What cannot be had with this gear. */
function cannot(name: TestName, gear: TestGear, facts: SetFacts, { say, term }: Language): readonly string[] {
	const is = (said: boolean, words: string): readonly string[] => (said ? [words] : []);
	switch (name) {
		case 'sensitivity':
			return [
				...is(
					gear.generatorLimitDb === null,
					say`The generator's scale is not in known volts: figures are relative, only before against after means anything.`,
				),
				...is(
					isThroughAir(facts),
					say`With a ${term(facts.antenna)} the field at the set is not known: figures are relative, with the coupling left as it is.`,
				),
				...is(gear.loadOhm === undefined, say`The load is not known: ${usualLoadOhm} ohms are assumed for 50 mW.`),
			];
		case 'output':
		case 'distortion':
			return is(!gear.readsDistortion, say`Nothing at hand reads distortion: this test is left out.`);
		case 'AVC':
			return is(
				gear.generatorLimitDb === null,
				say`The generator's volts are not known: so is the level from which the fall begins.`,
			);
		case 'stage gain':
			return is(
				isThroughAir(facts),
				say`The first ratio is relative: the ${term(facts.antenna)} is coupled through the air.`,
			);
		default:
			return [];
	}
}

function hookUpOf(name: TestName, facts: SetFacts, middleHz: number, language: Language): HookUp {
	const ground = { facts, options: usualOptions, language };
	const { say } = language;
	if (name === 'oscillator' || name === 'hum')
		return {
			connection: 'off',
			point: say`nothing`,
			dummy: 'none',
			why:
				name === 'hum'
					? say`the generator is off and its lead taken away`
					: say`the oscillator is heard through the air`,
			ground: 'none',
		};
	if (name === 'stage gain')
		return {
			connection: 'converter grid',
			contact: 'each grid',
			point: say`one grid after the other`,
			dummy: say`0.1 mfd in series, rated 630 V`,
			why: say`it keeps direct voltages apart and is no bar to the signal`,
			ground: groundLead(ground),
		};
	return antennaHookUp(ground, middleHz);
}

/**
 * The standard tests as procedures for this set and this gear; asks carry what earlier readings have told.
 * @param readings of this moment, so far
 */
export function standardTests(
	facts: SetFacts,
	gear: TestGear,
	readings: readonly TestReading[],
	language: Language = usualLanguage,
): readonly StandardTest[] {
	const asks = testAsks(facts, new ReadingBook(readings, gear, language));
	return told(language).map((one) => {
		const own = asks.filter(({ test }) => test === one.name);
		return {
			...one,
			hookUp: hookUpOf(one.name, facts, own[0]?.dialHz ?? 1e6, language),
			cannot: cannot(one.name, gear, facts, language),
			asks: own,
		};
	});
}

import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestName, TestReading } from '#record/test-reading.ts';
import { antennaHookUp, groundLead } from '../draft-step.ts';
import { usualOptions } from '../sheet-options.ts';
import type { HookUp } from '../sheet-step.ts';
import { testAsks } from './asks.ts';
import { ReadingBook } from './finding.ts';
import type { StandardTest } from './standard-test.ts';

type Told = Omit<StandardTest, 'hookUp' | 'cannot' | 'asks'>;

const told: readonly Told[] = [
	{
		name: 'sensitivity',
		title: 'Sensitivity',
		measures: 'how little signal behind the dummy antenna gives 50 mW of a 400 c tone at 30 % modulation',
		source: { words: 'Kennedy, as quoted on a teaching page: 400 c, 30 %, 50 mW [kennedy]', status: 'seen' },
		steps: [
			'Warm up half an hour. Volume full up, tone control bright.',
			'Pointer on the mark, generator tuned to the set, attenuator for the standard output.',
		],
		budget: ["generator's volts", 'output meter', 'setting the output', 'last digit', 'setting the pointer'],
	},
	{
		name: 'signal to noise',
		title: 'Signal to noise',
		measures: 'how far the tone stands above the noise at the input for the standard output, modulation on against off',
		source: { words: 'modulation on and off, as reported of a receiver specification', status: 'common practice' },
		steps: ['The meter must read true volts of everything, not the tone alone.'],
		budget: ['output meter over this range', 'last digits'],
	},
	{
		name: 'selectivity',
		title: 'Selectivity',
		measures:
			'how much more input gives the same output off tune: widths at 2, 10, 100 and 1,000 times, and one channel away',
		source: { words: 'input ratio for the same output; the times are customary', status: 'from memory' },
		steps: [
			'The output is the same in every reading, so the detector and AVC stand the same: AVC does not falsify the ratio.',
			'Come in from far, so that the outermost edge is found.',
		],
		budget: ['attenuator steps', 'setting the output', 'reading the frequencies', 'last digits'],
	},
	{
		name: 'rejection',
		title: 'Image and IF rejection',
		measures: 'how much more input the image and a signal at the IF need for the same output',
		source: {
			words:
				'ratio of inputs for the same output; image at the dial and twice the IF with the oscillator above [kennedy]',
			status: 'from memory',
		},
		steps: ['The pointer stays; only the generator moves.'],
		budget: ['attenuator steps', 'setting the output', 'last digits'],
	},
	{
		name: 'AVC',
		title: 'AVC',
		measures:
			'how the output follows the input, and how far the input may fall from 100 mV until the output is 10 dB down',
		source: { words: 'one of several usages; the starting level differs between them', status: 'from memory' },
		steps: ['Volume is set once at 100 mV and then left.'],
		budget: ["generator's volts", 'output meter over this range', 'attenuator steps', 'setting the output'],
	},
	{
		name: 'output',
		title: 'Greatest undistorted output',
		measures: 'the power into the load at 10 % distortion',
		source: { words: '10 % is customary', status: 'from memory' },
		steps: ['Never run the output stage without its load.'],
		budget: ['output meter', 'last digit'],
	},
	{
		name: 'distortion',
		title: 'Distortion',
		measures: 'distortion of the 400 c tone at the standard output, 1 mV input',
		source: { words: 'level and output are customary', status: 'common practice' },
		steps: ["The generator's own modulation is part of what is read."],
		budget: ['distortion meter', 'last digit'],
	},
	{
		name: 'audio response',
		title: 'Audio response',
		measures:
			'the output at other tones against 400 c, from the modulated signal to the voice coil, IF sidebands included',
		source: { words: 'tones are chosen; the way is custom of the trade', status: 'common practice' },
		steps: [
			"The generator's modulation must stay at 30 % at every tone; where it cannot change its tone, leave this out.",
		],
		budget: ['output meter over this range', 'last digits', 'reading it again'],
	},
	{
		name: 'hum',
		title: 'Hum and noise',
		measures: 'what is left at the output without a signal, below the standard output',
		source: { words: 'custom of the trade', status: 'common practice' },
		steps: ['With the volume down what is left comes from supply and output stage.'],
		budget: ['output meter', 'last digit'],
	},
	{
		name: 'oscillator',
		title: 'Oscillator across the band',
		measures: 'whether the oscillator runs at five places of the dial, and where',
		source: { words: 'custom of the trade', status: 'common practice' },
		steps: ['Nothing is connected to the oscillator: a probe would move it.'],
		budget: ['reading the frequency', 'setting the pointer'],
	},
	{
		name: 'stage gain',
		title: 'Stage by stage',
		measures: 'the input at each grid for the same output: where the gain is, and where it is lost',
		source: { words: 'signal substitution through 0.1 mfd, as in period handbooks', status: 'common practice' },
		steps: ['Each move of the lead: set unplugged, discharged, proved dead.'],
		budget: ['attenuator steps', 'setting the output', 'last digits'],
	},
];

/** What cannot be had with this gear. */
function cannot(name: TestName, gear: TestGear, facts: SetFacts): readonly string[] {
	const is = (said: boolean, words: string): readonly string[] => (said ? [words] : []);
	const antenna = facts.antenna === 'loop' || facts.antenna === 'rod';
	switch (name) {
		case 'sensitivity':
			return [
				...is(
					gear.generatorLimitDb === null,
					"The generator's scale is not in known volts: figures are relative, only before against after means anything.",
				),
				...is(
					antenna,
					`With a ${facts.antenna} the field at the set is not known: figures are relative, with the coupling left as it is.`,
				),
				...is(gear.loadOhm === undefined, 'The load is not known: 3.2 ohms are assumed for 50 mW.'),
			];
		case 'output':
		case 'distortion':
			return is(!gear.readsDistortion, 'Nothing at hand reads distortion: this test is left out.');
		case 'AVC':
			return is(
				gear.generatorLimitDb === null,
				"The generator's volts are not known: so is the level from which the fall begins.",
			);
		case 'stage gain':
			return is(antenna, `The first ratio is relative: the ${facts.antenna} is coupled through the air.`);
		default:
			return [];
	}
}

function hookUpOf(name: TestName, facts: SetFacts, middleHz: number): HookUp {
	const ground = { facts, options: usualOptions };
	if (name === 'oscillator' || name === 'hum')
		return {
			connection: 'off',
			point: 'nothing',
			dummy: 'none',
			why: name === 'hum' ? 'the generator is off and its lead taken away' : 'the oscillator is heard through the air',
			ground: 'none',
		};
	if (name === 'stage gain')
		return {
			connection: 'converter grid',
			point: 'one grid after the other',
			dummy: '0.1 mfd in series, rated 630 V',
			why: 'it keeps direct voltages apart and is no bar to the signal',
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
): readonly StandardTest[] {
	const asks = testAsks(facts, new ReadingBook(readings, gear));
	return told.map((one) => {
		const own = asks.filter(({ test }) => test === one.name);
		return {
			...one,
			hookUp: hookUpOf(one.name, facts, own[0]?.dialHz ?? 1e6),
			cannot: cannot(one.name, gear, facts),
			asks: own,
		};
	});
}

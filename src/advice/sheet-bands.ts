import { frequencyWords } from '#record/quantity-words.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { BandFacts } from '#record/set-facts.ts';
import {
	antennaHookUp,
	type DraftStep,
	draftStep,
	generatorRow,
	indicator,
	type SheetGround,
	turnable,
} from './draft-step.ts';
import type { DialRow } from './sheet-step.ts';

function ofBand(
	ground: SheetGround,
	band: BandFacts,
	stage: Adjuster['stage'],
	end: 'high' | 'low',
): readonly Adjuster[] {
	return turnable(ground.facts.adjusters).filter(
		(adjuster) =>
			adjuster.stage === stage && (adjuster.end ?? 'high') === end && (adjuster.bands?.includes(band.id) ?? true),
	);
}

const ids = (adjusters: readonly Adjuster[]) => adjusters.map(({ id }) => id);

function mark(ground: SheetGround, frequencyHz: number): DialRow {
	return { kind: 'mark', frequencyHz, words: `pointer on ${frequencyWords(frequencyHz, ground.options.words)}` };
}

/** With no generator at all a station of known frequency near the mark stands in for it. */
function source(ground: SheetGround, frequencyHz: number): Partial<DraftStep> {
	if (ground.options.generator !== 'none') {
		return {
			hookUp: antennaHookUp(ground, frequencyHz),
			generator: generatorRow(ground, frequencyHz, frequencyWords(frequencyHz, ground.options.words)),
		};
	}
	return {
		remarks: [
			`Take a weak station of known frequency near ${frequencyWords(frequencyHz, ground.options.words)}, and its own place on the dial.`,
		],
	};
}

function shared(ground: SheetGround, adjusters: readonly Adjuster[]): readonly string[] {
	return adjusters
		.filter(({ bands }) => (bands?.length ?? 0) > 1)
		.map(({ name, bands }) => `${name} serves ${bands?.join(' and ')}: check the other band after it is turned.`)
		.concat(ground.facts.bands.length > 1 ? ['Band switch to this band.'] : []);
}

function oscillatorHigh(ground: SheetGround, band: BandFacts): DraftStep | null {
	const adjusters = ofBand(ground, band, 'oscillator', 'high');
	if (adjusters.length === 0) return null;
	const given = source(ground, band.highMarkHz);
	return draftStep(ground, {
		id: `${band.id}-oscillator-high`,
		group: 'high end',
		kind: 'adjust',
		title: `Oscillator, high end of ${band.name}`,
		instructions: ['Turn the oscillator trimmer until the signal comes in with the pointer on the mark.'],
		...given,
		band: band.id,
		dial: mark(ground, band.highMarkHz),
		adjusters: ids(adjusters),
		aim: 'maximum',
		indicator: indicator(ground),
		remarks: [
			...(given.remarks ?? []),
			...shared(ground, adjusters),
			...(band.highHz > 5e6
				? [
						`Two settings bring the signal in. Oscillator ${band.oscillator}: take the one with ${band.oscillator === 'above' ? 'less' : 'more'} capacitance, and check that the image lies two IFs away.`,
					]
				: []),
		],
	});
}

function antennaHigh(ground: SheetGround, band: BandFacts): DraftStep | null {
	const adjusters = [...ofBand(ground, band, 'RF', 'high'), ...ofBand(ground, band, 'antenna', 'high')];
	if (adjusters.length === 0) return null;
	const given = source(ground, band.highMarkHz);
	const rock = band.highHz > 5e6;
	return draftStep(ground, {
		id: `${band.id}-antenna-high`,
		group: 'high end',
		kind: 'adjust',
		title: `Antenna, high end of ${band.name}`,
		instructions: ['Tune the signal in for most, then peak the antenna trimmer.'],
		...given,
		band: band.id,
		dial: mark(ground, band.highMarkHz),
		adjusters: ids(adjusters),
		aim: 'maximum',
		rock,
		indicator: indicator(ground),
		remarks: [
			...(given.remarks ?? []),
			...shared(ground, adjusters),
			...(ground.facts.antenna === 'car' ? ['To be peaked once more in the car, on its own aerial.'] : []),
			...(ground.facts.antenna === 'loop' ? ['Peak it once more with the set in its cabinet.'] : []),
			...(rock ? ['Rock the dial while you peak: the trimmer pulls the oscillator.'] : []),
		],
	});
}

function lowEnd(ground: SheetGround, band: BandFacts): DraftStep {
	const adjusters = ofBand(ground, band, 'oscillator', 'low');
	const antenna = [...ofBand(ground, band, 'RF', 'low'), ...ofBand(ground, band, 'antenna', 'low')];
	const given = source(ground, band.lowMarkHz);
	const common = {
		...given,
		group: 'low end',
		band: band.id,
		dial: mark(ground, band.lowMarkHz),
		indicator: indicator(ground),
	} as const;
	if (adjusters.length === 0) {
		return draftStep(ground, {
			...common,
			id: `${band.id}-low`,
			kind: 'measure',
			title: `Low end of ${band.name}: nothing to turn`,
			instructions: [
				'Note where the signal comes in. What is left is shared between the ends by the trimmer and the pointer.',
			],
			adjusters: ids(antenna),
			questions: [
				{
					id: 'heard',
					words: `With the pointer on ${frequencyWords(band.lowMarkHz, ground.options.words)} the set receives`,
					answer: 'frequency',
				},
			],
		});
	}
	const rocked = ground.options.lowEndSchool === 'greatest output';
	return draftStep(ground, {
		...common,
		id: `${band.id}-low`,
		kind: 'adjust',
		title: `Low end of ${band.name}, ${rocked ? 'rocked for greatest output' : 'true to the dial'}`,
		instructions: rocked
			? [
					'Turn the adjuster a little, rock the dial through the signal, and note the most. Stop where the most is greatest.',
					'The pointer falls where it will.',
				]
			: ['Turn the adjuster until the signal comes in with the pointer on the mark.'],
		adjusters: [...ids(adjusters), ...ids(antenna)],
		aim: 'maximum',
		rock: rocked,
		remarks: [
			...(given.remarks ?? []),
			...shared(ground, adjusters),
			rocked
				? 'The other school sets the pointer right at both ends and gives up some output at the low end.'
				: 'The other school rocks the dial for greatest output and gives up the dial at the low end.',
		],
	});
}

/**
 * Steps of one band: with a padder the high end first, with a slug the low end first; always ended at the high end, antenna last.
 */
export function bandSteps(ground: SheetGround, band: BandFacts): readonly DraftStep[] {
	const present = (steps: readonly (DraftStep | null)[]) => steps.filter((step) => step !== null);
	const high = present([oscillatorHigh(ground, band), antennaHigh(ground, band)]);
	const low = lowEnd(ground, band);
	if (low.kind !== 'adjust') return [...high, low];
	const slugFirst = band.lowEnd === 'slug';
	const first = slugFirst ? [low, ...high] : [...high, low];
	const again = slugFirst ? [low.id, ...high.map(({ id }) => id)] : high.map(({ id }) => id);
	const last = first.at(-1) as DraftStep;
	const repeat = slugFirst ? again : [...again, low.id, ...again];
	return first.map((step) =>
		step === last
			? {
					...step,
					repeat,
					remarks: [
						...step.remarks,
						'Repeat both ends until neither moves the other; end at the high end, antenna last.',
					],
				}
			: step,
	);
}

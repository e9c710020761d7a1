import type { Language } from '#record/language.ts';
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

type Stages = readonly Adjuster['stage'][];

/** Adjusters of these stages that set one end of a band: those to be turned here, and those that an earlier band has settled. */
interface EndAdjusters {
	readonly turned: readonly Adjuster[];
	readonly settled: readonly Adjuster[];
}

function atEnd(ground: SheetGround, band: BandFacts, stages: Stages, end: 'high' | 'low'): EndAdjusters {
	const { bands } = ground.facts;
	const earlier = bands.slice(0, bands.indexOf(band)).map(({ id }) => id);
	const serving = stages
		.flatMap((stage) => turnable(ground.facts.adjusters).filter((adjuster) => adjuster.stage === stage))
		.filter((adjuster) => (adjuster.end ?? 'high') === end && (adjuster.bands?.includes(band.id) ?? true));
	const isSettled = ({ bands: named }: Adjuster) => earlier.some((id) => named?.includes(id) ?? true);
	return { turned: serving.filter((adjuster) => !isSettled(adjuster)), settled: serving.filter(isSettled) };
}

const ids = (adjusters: readonly Adjuster[]) => adjusters.map(({ id }) => id);

function mark(ground: SheetGround, frequencyHz: number): DialRow {
	const { say, dial } = ground.language;
	const near = dial(frequencyHz);
	const words =
		ground.options.generator === 'none'
			? say`pointer on the station\u2019s own frequency, near ${near}`
			: say`pointer on ${near}`;
	return { kind: 'mark', frequencyHz, words };
}

/** With no generator at all a station of known frequency near the mark stands in for it. */
function source(ground: SheetGround, frequencyHz: number): Partial<DraftStep> {
	const { say, dial, frequency } = ground.language;
	if (ground.options.generator !== 'none') {
		return {
			hookUp: antennaHookUp(ground, frequencyHz),
			generator: generatorRow(ground, frequencyHz, frequency(frequencyHz)),
		};
	}
	return {
		remarks: [say`Take a weak station of known frequency near ${dial(frequencyHz)}; by day, when none fades.`],
	};
}

/** What is to be said of the band switch and of adjusters that serve more than one band. */
function bandRemarks(ground: SheetGround, band: BandFacts, { turned, settled }: EndAdjusters): readonly string[] {
	const { bands } = ground.facts;
	if (bands.length === 1) return [];
	const { say } = ground.language;
	const nameOf = (id: string) => bands.find((other) => other.id === id)?.name ?? id;
	const others = ({ bands: named }: Adjuster) =>
		(named ?? bands.map(({ id }) => id)).filter((id) => id !== band.id).map(nameOf);
	const list = (names: readonly string[]) => names.reduce((first, last) => say`${first} and ${last}`);
	return [
		say`Band switch to this band.`,
		...turned
			.filter((adjuster) => others(adjuster).length > 0)
			.map(
				(adjuster) =>
					say`${adjuster.name} serves ${list(others(adjuster))} too: it is set here and only checked there.`,
			),
		...settled.map(
			({ name, bands: named }) =>
				say`${name} serves this band too and was set on ${nameOf(bands.find(({ id }) => named?.includes(id) ?? true)?.id ?? '')}: do not turn it here. If this band is far off, share what is left between the two and work both again.`,
		),
	];
}

/** A step that only notes what is left, where an earlier band has settled every adjuster of this end. */
function settledStep(ground: SheetGround, told: Parameters<typeof draftStep>[1]): DraftStep {
	const { say } = ground.language;
	return draftStep(ground, {
		...told,
		kind: 'measure',
		instructions: [say`Nothing to turn here. Note where the signal comes in.`],
		adjusters: [],
		aim: null,
		rock: false,
		questions: [
			{
				id: `heard-${told.id}`,
				words: say`With the ${told.dial?.words ?? say`pointer on the mark`} the set receives`,
				answer: 'frequency',
			},
		],
	});
}

function oscillatorHigh(ground: SheetGround, band: BandFacts): DraftStep | null {
	const found = atEnd(ground, band, ['oscillator'], 'high');
	if (found.turned.length + found.settled.length === 0) return null;
	const { say } = ground.language;
	const given = source(ground, band.highMarkHz);
	const told = {
		id: `${band.id}-oscillator-high`,
		group: 'high end',
		kind: 'adjust',
		title: say`Oscillator, high end of ${band.name}`,
		instructions: [say`Turn the oscillator trimmer until the signal comes in with the pointer on the mark.`],
		...given,
		band: band.id,
		dial: mark(ground, band.highMarkHz),
		adjusters: ids(found.turned),
		aim: 'maximum',
		indicator: indicator(ground),
		remarks: [
			...(given.remarks ?? []),
			...bandRemarks(ground, band, found),
			...(band.highHz > 5e6
				? [
						band.oscillator === 'above'
							? say`Two settings bring the signal in. Oscillator above: take the one with less capacitance, and check that the image lies two IFs away.`
							: say`Two settings bring the signal in. Oscillator below: take the one with more capacitance, and check that the image lies two IFs away.`,
					]
				: []),
		],
	} as const;
	return found.turned.length > 0 ? draftStep(ground, told) : settledStep(ground, told);
}

function antennaHigh(ground: SheetGround, band: BandFacts): DraftStep | null {
	const found = atEnd(ground, band, ['RF', 'antenna'], 'high');
	if (found.turned.length + found.settled.length === 0) return null;
	const { say } = ground.language;
	const given = source(ground, band.highMarkHz);
	const rock = band.highHz > 5e6;
	const { antenna } = ground.facts;
	const told = {
		id: `${band.id}-antenna-high`,
		group: 'high end',
		kind: 'adjust',
		title: say`Antenna, high end of ${band.name}`,
		instructions: [say`Tune the signal in for most, then peak the antenna trimmer.`],
		...given,
		band: band.id,
		dial: mark(ground, band.highMarkHz),
		adjusters: ids(found.turned),
		aim: 'maximum',
		rock,
		indicator: indicator(ground),
		remarks: [
			...(given.remarks ?? []),
			...bandRemarks(ground, band, found),
			...(antenna === 'car' ? [say`To be peaked once more in the car, on its own aerial.`] : []),
			...(antenna === 'loop' ? [say`Peak it once more with the set in its cabinet.`] : []),
			...(rock && found.turned.length > 0
				? [say`Rock the dial while you peak: the trimmer pulls the oscillator.`]
				: []),
		],
	} as const;
	return found.turned.length > 0 ? draftStep(ground, told) : settledStep(ground, told);
}

const schoolWords = ({ say }: Language) => ({
	'greatest output': {
		title: say`rocked for greatest output`,
		instructions: [
			say`Turn the adjuster a little, rock the dial through the signal, and note the most. Stop where the most is greatest.`,
			say`The pointer falls where it will.`,
		],
		other: say`The other school sets the pointer right at both ends and gives up some output at the low end.`,
	},
	'dial true': {
		title: say`true to the dial`,
		instructions: [say`Turn the adjuster until the signal comes in with the pointer on the mark.`],
		other: say`The other school rocks the dial for greatest output and gives up the dial at the low end.`,
	},
});

/** The low end: oscillator by padder or slug, after either school; then the antenna\u2019s own adjuster, if it has one. */
function lowEnd(ground: SheetGround, band: BandFacts): DraftStep {
	const oscillator = atEnd(ground, band, ['oscillator'], 'low');
	const antenna = atEnd(ground, band, ['RF', 'antenna'], 'low');
	const found = {
		turned: [...oscillator.turned, ...antenna.turned],
		settled: [...oscillator.settled, ...antenna.settled],
	};
	const given = source(ground, band.lowMarkHz);
	const { say } = ground.language;
	const { title, instructions, other } = schoolWords(ground.language)[ground.options.lowEndSchool];
	const hasOscillator = oscillator.turned.length > 0;
	const peaked = antenna.turned.map(({ name }) => name).join(', ');
	const told = {
		...given,
		id: `${band.id}-low`,
		group: 'low end',
		kind: 'adjust',
		band: band.id,
		title: hasOscillator ? say`Low end of ${band.name}, ${title}` : say`Low end of ${band.name}: nothing to turn`,
		instructions: [
			...(hasOscillator ? instructions : []),
			...(antenna.turned.length > 0
				? [
						hasOscillator
							? say`Then tune the signal in for most and peak ${peaked}.`
							: say`Tune the signal in for most and peak ${peaked}.`,
					]
				: []),
		],
		dial: mark(ground, band.lowMarkHz),
		adjusters: ids(found.turned),
		aim: 'maximum',
		rock: hasOscillator && ground.options.lowEndSchool === 'greatest output',
		indicator: indicator(ground),
		remarks: [
			...(given.remarks ?? []),
			...bandRemarks(ground, band, found),
			...(hasOscillator
				? [other]
				: [say`What is left of the dial error is shared between the ends by the trimmer and the pointer.`]),
		],
	} as const;
	if (found.turned.length === 0) return settledStep(ground, told);
	return draftStep(ground, hasOscillator ? told : { ...told, title: say`Antenna, low end of ${band.name}` });
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
						ground.language.say`Repeat both ends until neither moves the other; end at the high end, antenna last.`,
					],
				}
			: step,
	);
}

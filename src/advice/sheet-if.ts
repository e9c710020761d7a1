import type { Adjuster } from '#record/set-card.ts';
import {
	antennaHookUp,
	type DraftStep,
	draftStep,
	generatorRow,
	groundLead,
	indicator,
	looseHookUp,
	type SheetGround,
	turnable,
} from './draft-step.ts';
import type { DialRow, HookUp } from './sheet-step.ts';

const windingOrder = ['third', 'secondary', 'primary'] as const;

/** IF adjusters, last transformer first, from the detector back to the converter. */
function backToFront(adjusters: readonly Adjuster[]): readonly Adjuster[] {
	const place = ({ winding }: Adjuster) => windingOrder.indexOf(winding ?? 'secondary');
	return [...adjusters].sort((a, b) => (b.transformer ?? 0) - (a.transformer ?? 0) || place(a) - place(b));
}

/** The converter as the card calls it. */
function converter({ facts, language: { say } }: SheetGround): string {
	const tube = facts.card.tubes?.find(({ stage }) => /convert|mixer|changer|first detector/i.test(stage));
	return tube ? say`${tube.type} converter` : say`converter`;
}

function gridHookUp(ground: SheetGround): HookUp {
	const cap = ground.facts.card.converterGrid === 'grid cap';
	const tube = converter(ground);
	const { say } = ground.language;
	if (ground.options.coupling === 'loose') return looseHookUp(ground, say`the ${tube}, once or twice around its glass`);
	return {
		connection: 'converter grid',
		point: cap
			? say`grid cap of the ${tube}, its clip left on`
			: say`signal grid pin of the ${tube}, or the antenna section of the gang`,
		dummy: say`0.1 mfd, 630 V, in series`,
		why: say`it keeps the grid bias and lets the generator swamp that tuned circuit, so that its tuning does not matter`,
		ground: groundLead(ground),
	};
}

/** Finds where the strip now sits, when nothing says what the IF should be; it never decides what was designed. */
function findingStep(ground: SheetGround): DraftStep {
	const { say } = ground.language;
	return draftStep(ground, {
		id: 'find-if',
		group: 'IF',
		kind: 'measure',
		title: say`Find the intermediate frequency as it is now`,
		instructions: [
			say`Tune the generator slowly from 100 to 500 kc and note where the set answers most.`,
			say`That is the IF as found. What the maker designed may be another: look for the set\u2019s age and its dial errors before the strip is moved.`,
		],
		hookUp: gridHookUp(ground),
		generator: generatorRow(ground, null, say`100 to 500 kc, by hand`),
		dial: { kind: 'quiet spot', frequencyHz: null, words: say`a quiet spot, where no station is` },
		indicator: indicator(ground),
		questions: [{ id: 'if-found', words: say`The set answers most at`, answer: 'frequency' }],
		remarks: [say`Put the frequency that you decide for on the card, then make the sheet again.`],
	});
}

/** Common practice: a partner loaded until the pair is below critical coupling lets the other winding show one true peak. */
const dampingWords = ({ language: { say } }: SheetGround): string =>
	say`Overcoupled: a winding shows its own peak only while its partner is damped, by 10k or so across it, fitted and taken off with the set dead. Or set each winding by the Response page.`;

function ifAdjusters({ facts }: SheetGround): readonly Adjuster[] {
	return backToFront(turnable(facts.adjusters.filter(({ stage }) => stage === 'IF')));
}

function alignStep(ground: SheetGround, ifHz: number): DraftStep {
	const adjusters = ifAdjusters(ground);
	const { facts } = ground;
	const { say, frequency } = ground.language;
	const { ifCurve } = facts.card;
	return draftStep(ground, {
		id: 'if',
		group: 'IF',
		kind: 'adjust',
		title: say`IF transformers to ${frequency(ifHz)}`,
		instructions: [
			...(ifCurve === 'selectivity switch' ? [say`Turn the selectivity switch to its narrowest place.`] : []),
			say`Set the generator and bring the reading just above the noise.`,
			say`Peak each adjuster in the order given, the last transformer first, an eighth of a turn at a time. Make the signal weaker as the reading grows.`,
			say`Before each adjuster and after it, with the tool withdrawn, read once more: what drifts by itself is no peak.`,
		],
		hookUp: gridHookUp(ground),
		generator: generatorRow(ground, ifHz, frequency(ifHz)),
		dial: {
			kind: 'quiet spot',
			frequencyHz: null,
			words: say`a quiet spot near the low end; the reading must not change as the dial is moved a little`,
		},
		adjusters: adjusters.map(({ id }) => id),
		aim: 'maximum',
		indicator: indicator(ground),
		remarks: [
			say`Go back and forth until a pass gains less than the meter can tell.`,
			...(ifCurve === 'overcoupled' ? [dampingWords(ground)] : []),
			say`No quiet spot: stop the oscillator by 0.1 mfd, 630 V, across its section of the gang, fitted with the set dead.`,
			...(facts.adjusters.some(({ stage, winding }) => stage === 'IF' && winding === 'third')
				? [say`Triple-tuned: damp one winding while its neighbours are peaked, or keep the curve symmetrical.`]
				: []),
			...(adjusters.some(({ kind }) => kind === 'slug')
				? [say`A slug may peak in two places: take the outer one, the cores farthest apart.`]
				: []),
			...(facts.avc === 'none'
				? []
				: [say`If a step of 6 dB at the generator reads less than 5.7 dB, AVC is at work: make the signal weaker.`]),
		],
		repeat: ['if'],
	});
}

/** The curve of a strip that was meant wide, judged by both its sides; nothing in it is peaked on the IF. */
function shapeStep(ground: SheetGround, ifHz: number): DraftStep {
	const { facts } = ground;
	const { say, frequency: at } = ground.language;
	const sideHz = 5e3;
	const { ifCurve } = facts.card;
	return draftStep(ground, {
		// The one step of a staggered strip is its IF step; elsewhere it follows that.
		id: ifCurve === 'staggered' ? 'if' : 'if-shape',
		group: 'IF',
		kind: 'measure',
		title: say`IF curve alike on both sides`,
		instructions: [
			...(ifCurve === 'selectivity switch' ? [say`Turn the selectivity switch to its broadest place.`] : []),
			say`Keep the reading the same by the generator\u2019s level, and note that level at ${at(ifHz - sideHz)}, ${at(ifHz)} and ${at(ifHz + sideHz)}; or read the whole curve on the Response page.`,
			say`Alike within 1 dB at the two outer places: leave it. If not, turn the adjuster that the Response page names, an eighth at a time, until both sides are alike.`,
		],
		hookUp: gridHookUp(ground),
		generator: generatorRow(ground, null, `${at(ifHz - sideHz)}, ${at(ifHz)}, ${at(ifHz + sideHz)}`),
		dial: { kind: 'quiet spot', frequencyHz: null, words: say`as for the IF` },
		adjusters: ifAdjusters(ground).map(({ id }) => id),
		aim: 'symmetry',
		indicator: indicator(ground),
		remarks:
			ifCurve === 'staggered'
				? [
						say`Stagger-tuned: each circuit stands beside the IF on purpose. Peaking all of them on it makes the set narrow; follow the maker\u2019s frequencies where they are known.`,
					]
				: [],
	});
}

/** The end of a band that lies nearest the IF. */
function nearestEnd({ facts, language: { say } }: SheetGround, ifHz: number): DialRow | null {
	const ends = facts.bands.flatMap(({ name, lowHz, highHz }) => [
		{
			kind: 'closed' as const,
			frequencyHz: lowHz,
			words: say`gang closed on ${name}: the end of the dial nearest the IF`,
		},
		{
			kind: 'open' as const,
			frequencyHz: highHz,
			words: say`gang open on ${name}: the end of the dial nearest the IF`,
		},
	]);
	const offHz = ({ frequencyHz }: { frequencyHz: number }) => Math.abs(frequencyHz - ifHz);
	return ends.reduce<(typeof ends)[number] | null>(
		(best, end) => (best && offHz(best) <= offHz(end) ? best : end),
		null,
	);
}

function trapStep(ground: SheetGround, ifHz: number): DraftStep | null {
	const traps = turnable(ground.facts.adjusters.filter(({ stage }) => stage === 'wave trap'));
	const dial = nearestEnd(ground, ifHz);
	const { say, frequency } = ground.language;
	if (traps.length === 0 || !dial) return null;
	return draftStep(ground, {
		id: 'wave-trap',
		group: 'wave trap',
		kind: 'adjust',
		title: say`Wave trap for least`,
		instructions: [
			say`Make the signal as strong as the reading needs.`,
			say`Turn the trap for the least reading; make the signal stronger as it falls.`,
		],
		hookUp: antennaHookUp(ground, ifHz),
		generator: {
			...generatorRow(ground, ifHz, frequency(ifHz)),
			levelRule: say`As strong as the reading needs; stronger again as it falls.`,
		},
		dial,
		adjusters: traps.map(({ id }) => id),
		aim: 'minimum',
		indicator: indicator(ground),
	});
}

/** The IF and the wave trap; finding the IF instead when it is not known. */
export function ifSteps(ground: SheetGround): readonly DraftStep[] {
	const { ifHz } = ground.facts;
	if (ifHz === null) return [findingStep(ground)];
	const trap = trapStep(ground, ifHz);
	const { ifCurve } = ground.facts.card;
	const strip = {
		staggered: [shapeStep],
		overcoupled: [alignStep, shapeStep],
		'selectivity switch': [alignStep, shapeStep],
		'single peak': [alignStep],
		unknown: [alignStep],
	}[ifCurve ?? 'unknown'];
	return [...strip.map((made) => made(ground, ifHz)), ...(trap ? [trap] : [])];
}

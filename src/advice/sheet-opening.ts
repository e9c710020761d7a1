import { type DraftStep, draftStep, indicator, type SheetGround } from './draft-step.ts';
import type { StepQuestion } from './sheet-step.ts';
import { triageQuestions } from './triage.ts';

const yesNo = (id: string, words: string): StepQuestion => ({ id, words, answer: 'yes or no' });

/** Triage: is this an alignment fault at all? A set that plays well is left alone; a sick one is repaired first. */
function triage(ground: SheetGround): DraftStep {
	const { say } = ground.language;
	return draftStep(ground, {
		id: 'triage',
		group: 'triage',
		kind: 'check',
		title: say`Is it time to align?`,
		instructions: [
			say`Measure and answer before anything is turned.`,
			say`Plays well, dial right: leave it alone. A little weak or off: touch up, a quarter turn at most. Far out or tampered with: full alignment. Any fault: repair first.`,
		],
		questions: triageQuestions(ground.facts, ground.language),
		remarks: [say`To hear the oscillator without touching it: a second receiver tuned to dial plus IF.`],
	});
}

function marking(ground: SheetGround): DraftStep {
	const { facts } = ground;
	const { say, term } = ground.language;
	const closed = facts.adjusters.filter(
		({ condition }) => condition !== undefined && condition !== 'free' && condition !== 'unknown',
	);
	return draftStep(ground, {
		id: 'marking',
		group: 'preparation',
		kind: 'prepare',
		title: say`Mark every screw before the first touch`,
		instructions: [
			say`Photograph the chassis from above and below.`,
			say`Mark every slot with a pencil or felt line across screw and can.`,
			facts.adjusters.length > 0
				? say`Find each adjuster of the drawing on the chassis. Trace the leads of any that is not certain; never find out by turning.`
				: say`The card names no adjusters: trace the leads of each screw and put it on the card.`,
		],
		questions: [yesNo('marked', say`All marked and identified?`)],
		remarks: closed.map(({ name, condition }) => say`${name} is ${term(condition ?? '')} and will be passed over.`),
	});
}

function preparation(ground: SheetGround): DraftStep {
	const { facts, options } = ground;
	const { say } = ground.language;
	return draftStep(ground, {
		id: 'preparation',
		group: 'preparation',
		kind: 'prepare',
		title: say`Prepare set and instruments`,
		instructions: [
			say`Shields and covers on. Volume full, tone control at its brightest, selectivity switch at its sharpest.`,
			...(facts.avc === 'none' ? [] : [say`AVC stays connected: the signal is kept so weak that it does not act.`]),
			...(facts.antenna === 'loop'
				? [say`Loop in its place in the cabinet, or as far from the chassis as there.`]
				: []),
			...(facts.antenna === 'rod' ? [say`Rod in its place.`] : []),
			say`Close the gang fully and see that the pointer stands on its end mark; if not, move the pointer on its cord first.`,
			say`Let set and generator warm up: half an hour, or until one reading stays the same for five minutes.`,
			...(options.attenuator === 'coarse' && options.generator !== 'none'
				? [say`Pad between generator and dummy, both switches in; see its drawing. Note which are in at each reading.`]
				: []),
			...(indicator(ground).quantity === 'tone'
				? [say`Fix the place of the microphone and do not move it again.`]
				: []),
		],
		questions: [yesNo('ready', say`Ready and warm?`)],
	});
}

/** Triage, marking and preparation. */
export function openingSteps(ground: SheetGround): readonly DraftStep[] {
	return [triage(ground), marking(ground), preparation(ground)];
}

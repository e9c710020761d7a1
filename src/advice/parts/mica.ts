import { type IfWinding, ifCapacitor } from '#core/circuit/if-capacitor.ts';
import { capacitanceWords, frequencyWords, inductanceWords } from '#record/quantity-words.ts';
import { type PartAnswer, percentWords } from './part-answer.ts';
import { choicesFor, choiceWords, type Stock } from './part-choice.ts';

/**
 * The fixed capacitor of an IF winding: which, and whether the adjuster still reaches the peak with it.
 * @param fittedF the part to judge; `null`: the best choice from the stock
 * @param toleranceShare of that part
 */
export function micaAnswer(
	winding: IfWinding,
	fittedF: number | null,
	toleranceShare: number,
	stock: Stock,
): PartAnswer {
	const { wantedF, usableF } = ifCapacitor(winding, null, 0);
	if (usableF.most <= 0) return nothingToFit(winding, -usableF.most);
	const choices = choicesFor('capacitance', wantedF > 0 ? wantedF : usableF.most / 2, stock, Number.POSITIVE_INFINITY);
	// One part that peaks is better than a nearer pair.
	const alone = choices.find(({ joint }) => joint === 'alone');
	const choice = alone && ifCapacitor(winding, alone.value, toleranceShare).canPeak ? alone : choices[0];
	const judgedF = fittedF ?? choice?.value ?? wantedF;
	const judged = ifCapacitor(winding, judgedF, toleranceShare);
	const reach = winding.adjuster.kind === 'trimmer' ? 'trimmer' : 'slug';
	const verdict = judged.canPeak
		? `yes, with ${capacitanceWords(judged.marginF)} to spare`
		: `no, ${capacitanceWords(-judged.marginF)} short at the worst`;
	const judgedWords = fittedF === null && choice ? choiceWords('capacitance', choice) : capacitanceWords(judgedF);
	return {
		figures: {
			wantedF,
			usableF: [usableF.least, usableF.most],
			fittedF: judgedF,
			toleranceShare,
			marginF: judged.marginF,
			canPeak: judged.canPeak,
		},
		lines: [
			{ name: 'wanted', words: `${capacitanceWords(wantedF)}: peak in the middle of the ${reach}` },
			{
				name: 'reach',
				words: `${capacitanceWords(Math.max(usableF.least, 0))} to ${capacitanceWords(usableF.most)} can be peaked`,
			},
			{ name: 'fit', words: judgedWords },
			{ name: 'peaks', words: `${verdict}, part \u00b1${percentWords(toleranceShare)}` },
		],
		sheetWords: `IF winding ${inductanceWords(winding.inductanceH)} at ${frequencyWords(winding.frequencyHz, 'US')}, strays ${capacitanceWords(winding.straysF)}: fixed capacitor ${judgedWords}, \u00b1${percentWords(toleranceShare)}.`,
		toleranceWords: `Worst case: the part at the end of its tolerance, ${doubtWords(winding)}`,
		sourceWords: 'C = 1 / (w\u00b2 L), less strays and adjuster.',
		cautions: [
			'One of the two screws of the can may carry the full B-plus: work on the can with the set unplugged, discharged and proved dead.',
			'A fixed capacitor in a plate winding is rated for the full B-plus at least; silver mica or another of low loss and known drift.',
		],
	};
}

/** How far off inductance and strays are taken to be at worst. */
function doubtWords({ inductanceUncertaintyShare, straysUncertaintyF }: IfWinding): string {
	if (inductanceUncertaintyShare === 0 && straysUncertaintyF === 0)
		return 'against the peak; inductance and strays are taken as exact.';
	return `the inductance ${percentWords(2 * inductanceUncertaintyShare)} and the strays ${capacitanceWords(2 * straysUncertaintyF)} off, all against the peak at once.`;
}

/** Strays and adjuster alone already tune the winding below its frequency. */
function nothingToFit({ inductanceH, frequencyHz }: IfWinding, excessF: number): PartAnswer {
	return {
		figures: { wantedF: null, excessF, canPeak: false },
		lines: [
			{ name: 'fit', words: `no capacitor: strays and adjuster are ${capacitanceWords(excessF)} more than it needs` },
		],
		sheetWords: `IF winding ${inductanceWords(inductanceH)} cannot reach ${frequencyWords(frequencyHz, 'US')}: its inductance is too great.`,
		toleranceWords: 'Inductance and strays taken as given: measure both again before the winding is condemned.',
		sourceWords: 'C = 1 / (w\u00b2 L), less strays and adjuster.',
		cautions: [],
	};
}

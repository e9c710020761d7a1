import type { CodedValue, LeadKind } from '#core/circuit/colour-code.ts';
import { leadCode } from '#core/circuit/colour-code.ts';
import { capacitanceWords, resistanceWords } from '#record/quantity-words.ts';
import { type PartAnswer, percentWords } from './part-answer.ts';

/** What a colour code says of a resistor or a mica capacitor. */
export function codeAnswer(kind: 'resistor' | 'mica', read: CodedValue): PartAnswer {
	const words = kind === 'resistor' ? resistanceWords(read.value) : capacitanceWords(read.value);
	const tolerance = read.toleranceShare === null ? 'tolerance not read' : `\u00b1${percentWords(read.toleranceShare)}`;
	return {
		figures: {
			[kind === 'resistor' ? 'resistanceOhm' : 'capacitanceF']: read.value,
			toleranceShare: read.toleranceShare,
			notes: read.notes,
		},
		lines: [
			{ name: kind, words: `${words}, ${tolerance}` },
			...read.notes.map((note) => ({ name: 'note', words: note })),
		],
		sheetWords: `${kind === 'resistor' ? 'Resistor' : 'Capacitor'} marked ${words}, ${tolerance}.`,
		toleranceWords: 'The marking as new. Old parts drift: measure with one lead off, set unplugged and discharged.',
		sourceWords:
			kind === 'resistor'
				? 'RMA resistor code: body, end, dot.'
				: 'RMA dots of moulded mica capacitors; classes of RETMA REC-115A.',
		cautions: ['Colours fade and brown with heat: a value that makes no sense in the circuit was misread.'],
	};
}

/** Where the leads of a transformer go by their colours. */
export function leadAnswer(kind: LeadKind): PartAnswer {
	const leads = leadCode(kind);
	return {
		figures: { leads },
		lines: Object.entries(leads).map(([colour, place]) => ({ name: colour, words: place })),
		sheetWords: `Transformer (${kind}), leads by the trade\u2019s colours: ${Object.entries(leads)
			.map(([colour, place]) => `${colour} ${place}`)
			.join(', ')}.`,
		toleranceWords:
			'Many makers had colours of their own: prove each lead with an ohmmeter, set unplugged and discharged, before it is trusted.',
		sourceWords: 'Transformer leads as tabled for the trade in North America.',
		cautions: ['Red and blue leads carry B-plus; black leads of a power transformer carry the mains.'],
	};
}

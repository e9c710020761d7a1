import { nearestPreferred } from '#core/circuit/preferred-values.ts';
import { dampingResistor } from '#core/circuit/tuned-circuit.ts';
import { capacitanceWords, frequencyWords, resistanceWords } from '#record/quantity-words.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { Caution } from '../caution.ts';

/** How to peak each winding while its partner is damped: needs no curve, and ends on the IF however closely the windings are coupled. */
export interface LoadedPeaking {
	/** Resistor that brings the partner winding to a Q of about 10. */
	readonly computedOhm: number;
	readonly fittedOhm: number;
	readonly words: readonly string[];
	readonly cautions: readonly Caution[];
}

/** Capacitance across an IF winding where nobody has measured it, farads: common practice for 455 kc. */
export const usualWindingF = 110e-12;
/** Its Q, likewise. */
const usualQ = 80;
const dampedQ = 10;

/** Cautions for a part clipped inside a can's circuit: common practice; discharge and one hand as for every contact. */
const cautions: readonly Caution[] = [
	{
		id: 'clip-dead',
		weight: 'danger',
		words:
			'Clip and unclip only with the set unplugged, its capacitors discharged and proved dead by a meter. Then power, hands off.',
	},
	{
		id: 'clip-b-plus',
		weight: 'danger',
		words:
			'Both ends of a plate winding stand at full B-plus. Insulated clips; a capacitor put there is rated 630 V DC or more.',
	},
	{ id: 'clip-codes', weight: 'danger', words: 'Local codes and licensed practice come first.' },
];

/** With both neighbours damped each of three windings peaks where it would alone, whichever is in the middle; the loss is that of three windings of Q 80, next coupled to next by 1.2 times the critical coupling, in a circuit simulator. */
const tripleWords =
	'A transformer with three tuned windings takes two such parts: one across each of the other two while one is peaked, so that it does not matter which is in the middle. The reading then falls by some 25 dB.';

/**
 * Loaded peaking for a strip on this IF.
 * @param windingCount tuned windings of the strip; where it is not four a transformer may have three
 */
export function loadedPeaking(ifHz: number, windingCount: number): LoadedPeaking {
	const inductanceH = 1 / ((2 * Math.PI * ifHz) ** 2 * usualWindingF);
	const { shuntOhm } = dampingResistor(inductanceH, usualQ, ifHz, ifHz / dampedQ);
	const fittedOhm = nearestPreferred('E12', shuntOhm);
	return {
		computedOhm: shuntOhm,
		fittedOhm,
		words: [
			`Clip ${resistanceWords(fittedOhm)} across one winding of a can, and peak the other at ${frequencyWords(ifHz, 'US')}. Then change over. One pass is enough, from the last can to the first.`,
			`${resistanceWords(shuntOhm)} would bring a winding of ${capacitanceWords(usualWindingF)} and Q ${usualQ} to a Q of ${dampedQ}; both are assumed, and half or twice as much does no harm.`,
			...(windingCount === 4 ? [] : [tripleWords]),
			'The reading falls by some 13 dB while the part is on: make the signal stronger.',
		],
		cautions,
	};
}

/** One act of loaded peaking: what is peaked, and the windings that carry a part meanwhile. */
export interface LoadedAct {
	readonly adjuster: Adjuster;
	/** Adjusters of the damped windings; none where the card does not say which share the can. */
	readonly partners: readonly Adjuster[];
}

/**
 * What is peaked with what damped.
 * @param order adjusters of the strip in the order of the work
 */
export function loadedActs(order: readonly string[], adjusters: readonly Adjuster[]): readonly LoadedAct[] {
	return order.flatMap((id) => {
		const adjuster = adjusters.find((one) => one.id === id);
		if (!adjuster) return [];
		const { transformer } = adjuster;
		const partners = adjusters.filter(
			(one) => one.id !== id && one.stage === 'IF' && transformer !== undefined && one.transformer === transformer,
		);
		return [{ adjuster, partners }];
	});
}

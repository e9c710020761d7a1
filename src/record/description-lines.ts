import { type InstrumentDescription, type RangedVerb, rangeEnds } from './instrument-description.ts';

/** One line of a description, as it is tried. */
export interface DescriptionLine {
	readonly what: string;
	readonly line: string;
	readonly isQuery: boolean;
	/** Switches the output on: it is switched off again at once with this. */
	readonly off?: string;
}

const ranged = (what: string, verb: RangedVerb | undefined): DescriptionLine[] =>
	verb
		? rangeEnds(verb).map((line, end) => ({ what: `${what}, ${end === 0 ? 'least' : 'most'}`, line, isQuery: false }))
		: [];
const plain = (what: string, verb: { readonly send: string } | undefined): DescriptionLine[] =>
	verb ? [{ what, line: verb.send, isQuery: false }] : [];

/** Every line of a description once, in the order to try them: the output off all the while but for a moment at its least level. */
export function descriptionLines({ generator, meter }: InstrumentDescription): readonly DescriptionLine[] {
	const list: DescriptionLine[] = [];
	if (generator) {
		const off = generator['output off'].send;
		list.push(
			...plain('output off', generator['output off']),
			...ranged('set frequency', generator['set frequency']),
			...ranged('set level', generator['set level']).reverse(),
			...ranged('set modulation depth', generator['set modulation depth']),
			...ranged('set tone', generator['set tone']),
			...plain('modulation on', generator['modulation on']),
			...plain('modulation off', generator['modulation off']),
			{ what: 'output on, and off again', line: generator['output on'].send, isQuery: false, off },
		);
	}
	if (meter) list.push({ what: 'read volts', line: meter['read volts'].ask, isQuery: true });
	return list;
}

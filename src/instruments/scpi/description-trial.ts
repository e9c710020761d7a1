import { type InstrumentDescription, type RangedVerb, rangeEnds } from '#record/instrument-description.ts';
import type { ScpiSession } from './scpi-session.ts';

/** One line of a description as the instrument took it. */
export interface Trial {
	readonly what: string;
	readonly line: string;
	readonly kind: 'done' | 'said' | 'refused' | 'asks' | 'failed';
	/** What it answered or objected. */
	readonly words: string;
}

interface Act {
	readonly what: string;
	readonly line: string;
	readonly isQuery: boolean;
}

const ranged = (what: string, verb: RangedVerb | undefined): Act[] =>
	verb
		? rangeEnds(verb).map((line, end) => ({ what: `${what}, ${end === 0 ? 'least' : 'most'}`, line, isQuery: false }))
		: [];

const plain = (what: string, verb: { readonly send: string } | undefined): Act[] =>
	verb ? [{ what, line: verb.send, isQuery: false }] : [];

/** Every line of a description once, the output off all the while but for a moment at its least level. */
function acts({ generator, meter }: InstrumentDescription): readonly Act[] {
	const list: Act[] = [];
	if (generator) {
		const level = ranged('set level', generator['set level']).reverse();
		list.push(
			...plain('output off', generator['output off']),
			...ranged('set frequency', generator['set frequency']),
			...level,
			...ranged('set modulation depth', generator['set modulation depth']),
			...ranged('set tone', generator['set tone']),
			...plain('modulation on', generator['modulation on']),
			...plain('modulation off', generator['modulation off']),
			...plain('output on', generator['output on']),
			...plain('output off', generator['output off']),
		);
	}
	if (meter) list.push({ what: 'read volts', line: meter['read volts'].ask, isQuery: true });
	return list;
}

/** Tries a description line by line at the instrument itself; what comes after a lost connection is not tried. */
export async function trials(session: ScpiSession, description: InstrumentDescription): Promise<readonly Trial[]> {
	const list: Trial[] = [];
	for (const { what, line, isQuery } of acts(description)) {
		const came = isQuery ? await session.ask(line) : await session.tell([line]);
		const words = came.kind === 'said' ? came.text : came.kind === 'done' ? '' : came.words;
		list.push({ what, line, kind: came.kind, words });
		if (came.kind === 'failed' && !isQuery) break;
	}
	return list;
}

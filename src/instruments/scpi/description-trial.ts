import { type DescriptionLine, descriptionLines } from '#record/description-lines.ts';
import type { InstrumentDescription } from '#record/instrument-description.ts';
import type { ScpiSession } from './scpi-session.ts';

/** One line of a description as the instrument took it. */
export interface Trial {
	readonly what: string;
	readonly line: string;
	readonly kind: 'done' | 'said' | 'refused' | 'asks' | 'failed';
	/** What it answered or objected. */
	readonly words: string;
}

/** Tries one line; an output that it switches on is switched off at once, whatever came of it. */
export async function trial(session: ScpiSession, { what, line, isQuery, off }: DescriptionLine): Promise<Trial> {
	const came = isQuery ? await session.ask(line) : await session.tell([line]);
	const after = off === undefined ? null : await session.tell([off]);
	if (after && after.kind !== 'done')
		return { what, line, kind: 'failed', words: `the output may still be on: switch it off by hand (${after.words})` };
	const words = came.kind === 'said' ? came.text : came.kind === 'done' ? '' : came.words;
	return { what, line, kind: came.kind, words };
}

/** Tries a description line by line at the instrument itself; what comes after a lost connection is not tried. */
export async function trials(session: ScpiSession, description: InstrumentDescription): Promise<readonly Trial[]> {
	const list: Trial[] = [];
	for (const one of descriptionLines(description)) {
		const came = await trial(session, one);
		list.push(came);
		if (came.kind === 'failed' && !one.isQuery) break;
	}
	return list;
}

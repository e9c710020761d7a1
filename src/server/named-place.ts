import type { InstrumentPlace } from '#instruments/scpi/driven-gear.ts';
import { parseInstrumentDescription } from '#record/instrument-description.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import { shownWords } from '#record/shown-words.ts';

/** The instrument that a person named, with its description read. */
export function namedPlace({ place, description }: NamedInstrument): Parsed<InstrumentPlace> {
	if (description === null) return { ok: true, value: { place, description: null } };
	const parsed = parseInstrumentDescription(description);
	return parsed.ok
		? { ok: true, value: { place, description: parsed.value } }
		: { ok: false, words: `${shownWords(place)}: ${parsed.words}` };
}

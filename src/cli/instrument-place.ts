import { type InstrumentPlace, sessionAt } from '#instruments/scpi/driven-gear.ts';
import type { ScpiSession } from '#instruments/scpi/scpi-session.ts';
import {
	genericInstrument,
	type InstrumentDescription,
	parseInstrumentDescription,
} from '#record/instrument-description.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import { namedPlace } from '#server/named-place.ts';
import { InputFault } from './command.ts';
import { readInput } from './input.ts';

/** A place and the description in a file; the generic one when none is named. */
export function placeWith(place: string, descriptionPath: unknown): InstrumentPlace {
	if (typeof descriptionPath !== 'string') return { place, description: null };
	const parsed = parseInstrumentDescription(
		readInput(descriptionPath, 'the path of a description, such as examples/instruments/plain-generator.json').toString(
			'utf8',
		),
	);
	if (!parsed.ok) throw new InputFault(`${descriptionPath}: ${parsed.words}`);
	return { place, description: parsed.value };
}

/** The instrument that page and terminal keep. */
export function keptPlace(which: 'generator' | 'meter', named: NamedInstrument): InstrumentPlace {
	if (named.place === '')
		throw new InputFault(
			`--${which} is missing, and none is kept: give its place, or keep one with npx peakwright instrument PLACE --keep ${which}`,
		);
	const place = namedPlace(named);
	if (!place.ok) throw new InputFault(place.words);
	return place.value;
}

/** An instrument at a place that a person typed, spoken to as its description says. */
export function instrumentAt(
	place: string,
	descriptionPath: unknown,
): { readonly session: ScpiSession; readonly description: InstrumentDescription } {
	const at = placeWith(place, descriptionPath);
	const session = sessionAt(at);
	if (!session.ok) throw new InputFault(session.words);
	return { session: session.value, description: at.description ?? genericInstrument };
}

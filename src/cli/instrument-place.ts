import { instrumentAddress } from '#instruments/scpi/link.ts';
import { ScpiSession } from '#instruments/scpi/scpi-session.ts';
import {
	genericInstrument,
	type InstrumentDescription,
	parseInstrumentDescription,
} from '#record/instrument-description.ts';
import { InputFault } from './command.ts';
import { readInput } from './input.ts';

/** The description in a file, or the generic one when none is named. */
function descriptionIn(path: unknown): InstrumentDescription {
	if (typeof path !== 'string') return genericInstrument;
	const parsed = parseInstrumentDescription(
		readInput(path, 'the path of a description, such as examples/instruments/plain-generator.json').toString('utf8'),
	);
	if (!parsed.ok) throw new InputFault(`${path}: ${parsed.words}`);
	return parsed.value;
}

/** An instrument at a place that a person typed, spoken to as its description says. */
export function instrumentAt(
	place: string,
	descriptionPath: unknown,
): { readonly session: ScpiSession; readonly description: InstrumentDescription } {
	const description = descriptionIn(descriptionPath);
	const address = instrumentAddress(place, description.baud ?? null);
	if (!address.ok) throw new InputFault(address.words);
	return { session: new ScpiSession(address.value, description), description };
}

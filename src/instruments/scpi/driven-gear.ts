import { genericInstrument, type InstrumentDescription } from '#record/instrument-description.ts';
import type { Parsed } from '#record/parsed.ts';
import { instrumentAddress } from './link.ts';
import { ScpiGenerator } from './scpi-generator.ts';
import { ScpiMeter } from './scpi-meter.ts';
import { ScpiSession } from './scpi-session.ts';

/** Where an instrument is and how it is spoken to. */
export interface InstrumentPlace {
	/** As typed, such as `192.168.1.20:5025`. */
	readonly place: string;
	/** `null`: as SCPI-1999 has it. */
	readonly description: InstrumentDescription | null;
}

/** A generator and a meter that have said who they are. */
export interface DrivenGear {
	readonly sessions: readonly ScpiSession[];
	readonly generator: ScpiGenerator;
	readonly meter: ScpiMeter;
	/** Both say that they are virtual: nothing there can hurt anybody. */
	readonly isVirtual: boolean;
}

/** An instrument at a place that a person typed, not yet spoken to. */
export function sessionAt({ place, description }: InstrumentPlace): Parsed<ScpiSession> {
	const address = instrumentAddress(place, description?.baud ?? null);
	return address.ok ? { ok: true, value: new ScpiSession(address.value, description ?? genericInstrument) } : address;
}

/** Finds a generator and a meter and asks who they are; one instrument that is both is spoken to in one place. */
export async function openGear(
	generating: InstrumentPlace,
	metering: InstrumentPlace,
	nowMs: () => number,
): Promise<Parsed<DrivenGear>> {
	const own = generating.description ?? genericInstrument;
	const other = metering.description ?? genericInstrument;
	if (!own.generator)
		return { ok: false, words: `${own.name}: describes no generator: give a description with "generator"` };
	if (!other.meter) return { ok: false, words: `${other.name}: describes no meter: give a description with "meter"` };
	const first = sessionAt(generating);
	if (!first.ok) return first;
	const isOne = generating.place === metering.place && JSON.stringify(own) === JSON.stringify(other);
	const second = isOne ? first : sessionAt(metering);
	if (!second.ok) return second;
	const sessions = [...new Set([first.value, second.value])];
	const identities: string[] = [];
	for (const session of sessions) {
		const said = await session.identity();
		if (said.kind !== 'said') {
			for (const one of sessions) one.close();
			return { ok: false, words: said.words };
		}
		identities.push(said.text);
	}
	return {
		ok: true,
		value: {
			sessions,
			generator: new ScpiGenerator(first.value, own.generator, own.settleMs ?? 0),
			meter: new ScpiMeter(second.value, other.meter, nowMs),
			isVirtual: identities.every((identity) => identity.startsWith('PEAKWRIGHT,VIRTUAL ')),
		},
	};
}

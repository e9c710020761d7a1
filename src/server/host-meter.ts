import { sessionAt } from '#instruments/scpi/driven-gear.ts';
import { ScpiMeter } from '#instruments/scpi/scpi-meter.ts';
import type { ScpiSession } from '#instruments/scpi/scpi-session.ts';
import { genericInstrument } from '#record/instrument-description.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import type { LevelReading } from '#record/reading.ts';
import { namedPlace } from './named-place.ts';

/** A meter that nobody has read for so long is let go. */
const idleMs = 5000;

interface OpenMeter {
	readonly named: string;
	readonly session: ScpiSession;
	readonly meter: ScpiMeter;
}

/** Reads one meter for the page, again and again over one connection. */
export class HostMeter {
	#open: OpenMeter | null = null;
	#idle: NodeJS.Timeout | null = null;

	async read(named: NamedInstrument): Promise<Parsed<LevelReading>> {
		const open = this.#opened(named);
		if (!open.ok) return open;
		const reading = await open.value.meter.read();
		if (reading.kind === 'level') return { ok: true, value: reading };
		this.close();
		return { ok: false, words: reading.words };
	}

	#opened(named: NamedInstrument): Parsed<OpenMeter> {
		const key = JSON.stringify(named);
		if (this.#open?.named !== key) this.close();
		if (this.#idle) clearTimeout(this.#idle);
		this.#idle = setTimeout(() => this.close(), idleMs).unref();
		if (this.#open) return { ok: true, value: this.#open };
		const place = namedPlace(named);
		if (!place.ok) return place;
		const description = place.value.description ?? genericInstrument;
		if (!description.meter)
			return { ok: false, words: `${description.name}: describes no meter: give a description with "meter"` };
		const session = sessionAt(place.value);
		if (!session.ok) return session;
		this.#open = {
			named: key,
			session: session.value,
			meter: new ScpiMeter(session.value, description.meter, Date.now),
		};
		return { ok: true, value: this.#open };
	}

	/** Lets the meter go. */
	close(): void {
		if (this.#idle) clearTimeout(this.#idle);
		this.#idle = null;
		this.#open?.session.close();
		this.#open = null;
	}
}

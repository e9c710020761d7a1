import type { LiveMeter, MeterListener } from '#instruments/instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import type { LevelReading } from '#record/reading.ts';

/** A reading is asked for no sooner than this after the one before, milliseconds; a slow meter sets its own pace. */
const everyMs = 100;

/**
 * Reads a meter of the host until it is closed; the first reading tells whether it is there.
 * @param read asks for one reading
 */
export async function readRemoteMeter(
	read: () => Promise<Parsed<LevelReading>>,
	listener: MeterListener,
): Promise<Parsed<LiveMeter>> {
	const first = await read();
	if (!first.ok) return first;
	let isClosed = false;
	const pause = (ms: number): Promise<void> => new Promise((next) => setTimeout(next, ms));
	const follow = async (): Promise<void> => {
		while (!isClosed) {
			const askedMs = Date.now();
			const reading = await read();
			if (isClosed) return;
			if (!reading.ok) {
				listener.failure(reading.words);
				return;
			}
			listener.reading(reading.value, null);
			await pause(Math.max(0, askedMs + everyMs - Date.now()));
		}
	};
	void follow();
	return {
		ok: true,
		value: {
			name: first.value.instrument,
			hearsRoom: false,
			tellsGenerator: false,
			close: async () => {
				isClosed = true;
			},
		},
	};
}

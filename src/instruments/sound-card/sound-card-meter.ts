import type { Parsed } from '#record/parsed.ts';
import type { LiveMeter, MeterListener } from '../instrument.ts';
import { toneReading } from '../tone-reading.ts';
import { tapSoundCard } from './sound-tap.ts';

/**
 * Hears the sound input and reads the level of the tone ten times a second, in decibels of full scale.
 * Call it from a click: browsers start sound only then.
 */
export async function hearSoundCard(toneHz: number, listener: MeterListener): Promise<Parsed<LiveMeter>> {
	const tap = await tapSoundCard((samples, endedMs, { name, sampleRateHz }) => {
		const { reading, picture } = toneReading(samples, endedMs, {
			instrument: name,
			sampleRateHz,
			toneHz,
			fullScaleDbv: null,
		});
		listener.reading(reading, picture);
	}, listener.failure);
	if (!tap.ok) return tap;
	const { name, close } = tap.value;
	return { ok: true, value: { name, hearsRoom: true, tellsGenerator: false, close } };
}

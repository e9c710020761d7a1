import type { Parsed } from '#record/parsed.ts';
import { plainInput } from './sound-card-meter.ts';
import tapUrl from './tap-worklet.ts?worker&url';

/** Some seconds of the sound input, full scale being 1. */
export interface SoundRecording {
	readonly samples: Float32Array;
	readonly sampleRateHz: number;
}

/** An input that gives no frame for this long is gone (chosen); a busy machine may be slow, and is waited for. */
const patienceMs = 4000;

/** Records the unprocessed sound input. Call it from a click: browsers start sound only then. */
export async function recordSoundCard(seconds: number): Promise<Parsed<SoundRecording>> {
	const input = await plainInput();
	if (!input.ok) return input;
	const context = new AudioContext();
	try {
		await context.audioWorklet.addModule(tapUrl);
		const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
		const samples = new Float32Array(Math.round(seconds * context.sampleRate));
		const whole = new Promise<boolean>((resolve) => {
			let filled = 0;
			let patience = setTimeout(() => resolve(false), patienceMs);
			tap.port.onmessage = ({ data }: MessageEvent<{ samples: Float32Array }>) => {
				clearTimeout(patience);
				samples.set(data.samples.subarray(0, samples.length - filled), filled);
				filled = Math.min(samples.length, filled + data.samples.length);
				if (filled === samples.length) resolve(true);
				else patience = setTimeout(() => resolve(false), patienceMs);
			};
		});
		context.createMediaStreamSource(input.value).connect(tap);
		await context.resume();
		return (await whole)
			? { ok: true, value: { samples, sampleRateHz: context.sampleRate } }
			: { ok: false, words: 'The sound input gives no sound: plug it in again and listen anew.' };
	} finally {
		for (const track of input.value.getTracks()) track.stop();
		await context.close();
	}
}

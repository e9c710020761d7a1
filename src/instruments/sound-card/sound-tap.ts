import type { Parsed } from '#record/parsed.ts';
import { plainInput } from './sound-card-meter.ts';
import tapUrl from './tap-worklet.ts?worker&url';

/** The sound input while it is tapped. */
export interface SoundTap {
	readonly sampleRateHz: number;
	close(): Promise<void>;
}

/** An input that gives no frame for this long is gone (chosen); a busy machine may be slow, and is waited for. */
const patienceMs = 4000;

/** Hands on frames of the unprocessed sound input, full scale being 1. Call it from a click: browsers start sound only then. */
export async function tapSoundCard(
	frame: (samples: Float32Array) => void,
	gone: (words: string) => void,
): Promise<Parsed<SoundTap>> {
	const input = await plainInput();
	if (!input.ok) return input;
	const context = new AudioContext();
	const close = async (): Promise<void> => {
		clearTimeout(patience);
		for (const track of input.value.getTracks()) track.stop();
		await context.close();
	};
	let patience: ReturnType<typeof setTimeout> | undefined;
	const wait = (): void => {
		clearTimeout(patience);
		patience = setTimeout(() => gone('The sound input gives no sound: plug it in again and listen anew.'), patienceMs);
	};
	try {
		await context.audioWorklet.addModule(tapUrl);
		const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
		tap.port.onmessage = ({ data }: MessageEvent<{ samples: Float32Array }>) => {
			wait();
			frame(data.samples);
		};
		context.createMediaStreamSource(input.value).connect(tap);
		await context.resume();
		wait();
		return { ok: true, value: { sampleRateHz: context.sampleRate, close } };
	} catch (error) {
		await close();
		throw error;
	}
}

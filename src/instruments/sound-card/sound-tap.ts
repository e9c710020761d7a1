import type { Parsed } from '#record/parsed.ts';
import { plainInput } from './plain-input.ts';
import tapUrl from './tap-worklet.ts?worker&url';

/** The sound input while it is tapped. */
export interface SoundTap {
	/** As the system calls it. */
	readonly name: string;
	/** The context's own, never the one asked for. */
	readonly sampleRateHz: number;
	close(): Promise<void>;
}

/** An input can go without a word from the browser: it is looked after, and after so many looks without a frame of sound it is gone (chosen: two seconds; a page that is held up looks later too). */
const lookMs = 500;
const looksWithoutSound = 4;
const goneWords = 'The sound input is gone: plug it in again.';

/**
 * Hands on frames of the unprocessed sound input, full scale being 1. Call it from a click: browsers start sound only then.
 * @param frame told each frame, and when it ended, milliseconds since 1970
 * @param gone told once, in words for the person
 */
export async function tapSoundCard(
	frame: (samples: Float32Array, endedMs: number, of: Pick<SoundTap, 'name' | 'sampleRateHz'>) => void,
	gone: (words: string) => void,
): Promise<Parsed<SoundTap>> {
	const input = await plainInput();
	if (!input.ok) return input;
	const [track] = input.value.getAudioTracks();
	const context = new AudioContext();
	const about = { name: track?.label || 'sound input', sampleRateHz: context.sampleRate };
	let watch: ReturnType<typeof setInterval> | undefined;
	const close = async (): Promise<void> => {
		clearInterval(watch);
		for (const own of input.value.getTracks()) own.stop();
		await context.close();
	};
	try {
		await context.audioWorklet.addModule(tapUrl);
		const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
		let isQuiet = true;
		tap.port.onmessage = ({ data }: MessageEvent<{ samples: Float32Array; endS: number }>) => {
			isQuiet = false;
			frame(data.samples, Date.now() - 1000 * Math.max(0, context.currentTime - data.endS), about);
		};
		context.createMediaStreamSource(input.value).connect(tap);
		await context.resume();
		let quiet = 0;
		const leave = (): void => {
			clearInterval(watch);
			gone(goneWords);
		};
		track?.addEventListener('ended', leave);
		watch = setInterval(() => {
			quiet = isQuiet ? quiet + 1 : 0;
			isQuiet = true;
			if (quiet === looksWithoutSound || track?.readyState === 'ended') leave();
		}, lookMs);
		return { ok: true, value: { ...about, close } };
	} catch (error) {
		await close();
		throw error;
	}
}

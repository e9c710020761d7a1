/** Runs beside the sound: steps the virtual set and gives its voice coil's volts. */
import { SetStream } from '#core/receiver/set-stream.ts';
import type { SetSignal } from '#core/receiver/signal.ts';
import type { SetValues } from '#core/receiver/values.ts';

declare const sampleRate: number;
declare class AudioWorkletProcessor {
	readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

interface Change {
	readonly values: SetValues;
	readonly signal: SetSignal;
}

/** Volts at full scale: what a small output tube can give at most. */
const fullScaleV = 3;

class SetProcessor extends AudioWorkletProcessor {
	#stream: SetStream | null = null;

	constructor() {
		super();
		this.port.onmessage = ({ data }: MessageEvent<Change>) => {
			if (this.#stream) this.#stream.change(data.values, [data.signal]);
			else this.#stream = new SetStream(data.values, [data.signal], sampleRate, 1);
		};
	}

	process(_: Float32Array[][], [output]: Float32Array[][]): boolean {
		const channel = output?.[0];
		if (!channel || !this.#stream) return true;
		this.#stream.fill(channel);
		for (let k = 0; k < channel.length; k++) channel[k] = (channel[k] as number) / fullScaleV;
		return true;
	}
}

registerProcessor('set', SetProcessor);

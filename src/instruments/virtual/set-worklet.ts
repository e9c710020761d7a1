/** Runs beside the sound: steps the virtual set and gives its voice coil's volts. */
import { SetStream } from '#core/receiver/set-stream.ts';
import type { SetChange } from './set-sound.ts';

declare const sampleRate: number;
declare class AudioWorkletProcessor {
	readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Volts at full scale: what a small output tube can give at most. */
const fullScaleV = 3;

class SetProcessor extends AudioWorkletProcessor {
	#stream: SetStream | null = null;

	constructor() {
		super();
		this.port.onmessage = ({ data: { values, signals } }: MessageEvent<SetChange>) => {
			if (!values) this.#stream?.feed(signals);
			else if (this.#stream) this.#stream.change(values, signals);
			else this.#stream = new SetStream(values, signals, sampleRate, 1);
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

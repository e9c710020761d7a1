import type { BenchHand } from '#bench/bench-hand.ts';
import type { AskedMeter, Done, Generator } from '#instruments/instrument.ts';
import { PanelHand } from '#instruments/scpi/panel-hand.ts';
import type { ScpiPanel } from '#instruments/virtual/scpi-panel.ts';
import { virtualHand } from '#server/person-hand.ts';

/** Time that passes only when something takes time. */
export class SimulatedClock {
	ms = 0;
	readonly now = (): number => this.ms;
	readonly wait = async (ms: number): Promise<void> => {
		this.ms += ms;
	};
}

/** What a message over a wire and its answers take, milliseconds (chosen: an instrument of the slower kind). */
const messageMs = 20;

/** Generator and meter of a virtual set without a wire, in simulated time. Every message that was sent is kept. */
export function simulatedInstruments(
	panel: ScpiPanel,
	clock: SimulatedClock,
): { readonly generator: Generator; readonly meter: AskedMeter; readonly sent: readonly string[] } {
	const sent: string[] = [];
	const tell = async (message: string): Promise<Done> => {
		sent.push(message);
		clock.ms += messageMs;
		const { reply } = panel.line(`${message};:SYST:ERR?`);
		return reply?.startsWith('0,') ? { kind: 'done' } : { kind: 'refused', words: reply ?? 'nothing' };
	};
	const decibels = (levelV: number): string => (10 * Math.log10((levelV / 2) ** 2 / 50 / 1e-3)).toFixed(4);
	return {
		sent,
		generator: {
			name: 'simulated',
			setFrequency: (frequencyHz) => tell(`FREQ ${frequencyHz}`),
			setLevel: (levelV) => tell(`POW ${decibels(levelV)}`),
			raiseLevel: (levelV) => tell(`POW ${decibels(levelV)}`),
			modulate: (toneHz, depth) => tell(`AM:INT:FREQ ${toneHz};:AM ${depth * 100};:AM:STAT ON`),
			switchOn: () => tell('OUTP ON'),
			switchOff: () => tell('OUTP OFF'),
		},
		meter: {
			name: 'simulated',
			read: async () => {
				const { reply, tookMs } = panel.line('MEAS:VOLT:AC?');
				clock.ms += messageMs + tookMs;
				const volts = Number(reply);
				const common = {
					kind: 'level',
					atMs: clock.ms,
					instrument: 'simulated',
					reference: 'dBV',
					quantity: 'tone',
				} as const;
				return volts < 1e3
					? { ...common, trust: 'ok', levelDb: { value: 20 * Math.log10(volts), uncertainty: 0.05 } }
					: { ...common, trust: 'no tone', levelDb: null };
			},
		},
	};
}

/** A hand at a virtual set: pointer and volume as they are asked for, each adjuster turned by an eighth clockwise. */
export function simulatedHand(panel: ScpiPanel): BenchHand {
	const tell = async (message: string): Promise<Done> => {
		const { reply } = panel.line(`${message};:SYST:ERR?`);
		return reply?.startsWith('0,') ? { kind: 'done' } : { kind: 'refused', words: reply ?? 'nothing' };
	};
	return virtualHand(new PanelHand(tell));
}

import { SteadyState } from '#core/receiver/operating-point.ts';
import type { SignalInto } from '#core/receiver/signal.ts';
import type { SetValues } from '#core/receiver/values.ts';
import { decibelsOf } from '#record/level-unit.ts';
import { type Argument, levelArgument, numberArgument, switchArgument } from './panel-argument.ts';
import { type PanelCommand, ScpiPanel } from './scpi-panel.ts';
import { leastLevelV, mostLevelV, type VirtualSet } from './virtual-set.ts';

/** SCPI's number for a reading that cannot be had [scpi-1999]. */
const notANumber = '9.91E37';
/** A reading takes as long as a frame of the tone meter. */
const readingMs = 100;
/** A clip lead from the AVC line to the common. */
const groundedS = 1e3;

const leads: Readonly<Record<string, SignalInto>> = {
	ANT: 'antenna',
	GRID: 'converter grid',
	IFGR: 'IF grid',
	AUDI: 'audio grid',
	LOOS: 'loose coupling',
};

const decibels = (volts: number): number => 20 * Math.log10(volts);

/**
 * Generator and output meter of a virtual set as one SCPI instrument; the hand that turns dial, screws and volume has a branch of its own.
 * The meter reads the tone at the voice coil. AVC follows with its filter's time constant: what AVC takes off, in decibels, moves to its
 * steady size exponentially, so that whoever reads too soon after a change reads wrong, as on a real set.
 */
export function virtualInstruments(set: VirtualSet, nowMs: () => number): ScpiPanel {
	let isOn = false;
	let isModulated = true;
	let { frequencyHz, toneHz, depth, into } = set.placed.generator;
	let takenOffDb = 0;
	let sinceMs = nowMs();

	const signal = () => ({ ...set.signal, levelV: isOn ? set.state.levelV : 0 });
	const { avcOhm, avcF } = set.values.detector;
	const settlingMs = avcOhm * avcF * 1e3;

	/** What AVC takes off in the end: the tone with its line grounded less the tone as it settles, decibels. */
	const aimDb = (): number => {
		const { values } = set;
		const grounded = { ...values, detector: { ...values.detector, avcLeakS: groundedS } };
		const toneDb = (held: SetValues): number => decibels(new SteadyState(held).operatingPoint(signal()).toneV);
		return Math.max(0, toneDb(grounded) - toneDb(values));
	};
	const nowTakenOffDb = (atMs: number): number => {
		const aim = isOn && isModulated && depth > 0 ? aimDb() : 0;
		return aim + (takenOffDb - aim) * Math.exp(-(atMs - sinceMs) / settlingMs);
	};
	/** Lets a change happen; AVC goes on from where it was. */
	const change = (what: () => void): void => {
		const atMs = nowMs();
		takenOffDb = nowTakenOffDb(atMs);
		sinceMs = atMs;
		what();
		set.place({ frequencyHz, toneHz, depth: isModulated ? depth : 0, into }, set.placed.dialHz);
	};
	const taking =
		<Value>(read: (words: string) => Argument<Value>, what: (value: Value) => void) =>
		(words: string): number => {
			const argument = read(words);
			if ('error' in argument) return argument.error;
			change(() => what(argument.value));
			return 0;
		};

	const readTone = (): string => {
		const atMs = nowMs() + readingMs / 2;
		const { levelDb } = set.read(atMs);
		if (!isOn || levelDb === null) return notANumber;
		const lagDb = aimDb() - nowTakenOffDb(atMs);
		const mostV = set.values.audio.mostV / Math.SQRT2;
		return Math.min(10 ** ((levelDb.value + lagDb) / 20), mostV).toExponential(5);
	};
	const readAvc = (): string => new SteadyState(set.values).operatingPoint(signal()).avcV.toExponential(5);

	const turn = (words: string): number => {
		const [, name, turns] = /^"([^"]+)"\s*,\s*(.+)$/.exec(words) ?? [];
		if (name === undefined || turns === undefined) return -109;
		if (!Object.hasOwn(set.design.adjusters, name)) return -224;
		return taking(
			(typed) => numberArgument(typed, 'turns', -100, 100),
			(value) => void set.turn(name, value),
		)(turns);
	};

	const { lowHz, highHz } = set.design.band;
	const commands: readonly PanelCommand[] = [
		{
			header: '[:SOURce]:FREQuency[:CW]',
			set: taking(
				(words) => numberArgument(words, 'Hz', 10e3, 30e6),
				(value) => {
					frequencyHz = value;
				},
			),
			ask: () => frequencyHz.toFixed(1),
		},
		{
			header: '[:SOURce]:POWer[:LEVel][:IMMediate][:AMPLitude]',
			set: taking(
				(words) => levelArgument(words, leastLevelV * 0.999, mostLevelV * 1.001),
				(value) => set.changeLevel(decibels(value / set.state.levelV)),
			),
			ask: () => decibelsOf(set.state.levelV).toFixed(2),
		},
		{
			header: '[:SOURce]:AM[:DEPTh]',
			set: taking(
				(words) => numberArgument(words, 'share', 0, 0.95),
				(value) => {
					depth = value;
				},
			),
			ask: () => (100 * depth).toFixed(1),
		},
		{
			header: '[:SOURce]:AM:INTernal:FREQuency',
			set: taking(
				(words) => numberArgument(words, 'Hz', 50, 5000),
				(value) => {
					toneHz = value;
				},
			),
			ask: () => toneHz.toFixed(1),
		},
		{
			header: '[:SOURce]:AM:STATe',
			set: taking(switchArgument, (value) => {
				isModulated = value;
			}),
			ask: () => (isModulated ? '1' : '0'),
		},
		{
			header: ':OUTPut[:STATe]',
			set: taking(switchArgument, (value) => {
				isOn = value;
			}),
			ask: () => (isOn ? '1' : '0'),
		},
		{ header: ':MEASure[:SCALar]:VOLTage:AC', ask: readTone, askMs: readingMs },
		{ header: ':MEASure[:SCALar]:VOLTage[:DC]', ask: readAvc, askMs: readingMs },
		{
			header: ':HAND:DIAL',
			set: taking(
				(words) => numberArgument(words, 'Hz', lowHz, highHz),
				(value) => set.place(set.placed.generator, value),
			),
			ask: () => set.placed.dialHz.toFixed(0),
		},
		{
			header: ':HAND:LEAD',
			set: taking(
				(words) => {
					const value = leads[words.trim().toUpperCase()];
					return value === undefined ? { error: -224 } : { value };
				},
				(value) => {
					into = value;
				},
			),
			ask: () => Object.keys(leads).find((word) => leads[word] === into) ?? '',
		},
		{
			header: ':HAND:VOLume',
			set: taking((words) => numberArgument(words, 'share', 0, 1), set.setVolume.bind(set)),
			ask: () => (100 * set.state.volume).toFixed(1),
		},
		{ header: ':HAND:TURN', set: turn },
	];
	return new ScpiPanel(`PEAKWRIGHT,VIRTUAL ${set.design.id.toUpperCase()},0,1`, commands, () =>
		change(() => {
			isOn = false;
			isModulated = true;
			frequencyHz = set.design.ifHz;
		}),
	);
}

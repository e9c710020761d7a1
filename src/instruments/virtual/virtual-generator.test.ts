import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { missedMoveHz } from '#core/estimate/generator-dial.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { steadyWhistle, type Whistle } from '#core/signal/whistle.ts';
import { VirtualSet } from './virtual-set.ts';
import { tapRateHz, tapVirtualSet } from './virtual-tap.ts';

beforeEach(() => void vi.useFakeTimers({ now: 1.7e12 }));
afterEach(() => void vi.useRealTimers());

/** Volume low enough that the output tube flattens nothing. */
const quiet = 0.01;

/** A tampered set that plays a station, an old generator beside it. */
function played(seed: number, stationHz: number): VirtualSet {
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
	set.takeGenerator('service', 3600);
	set.setVolume(quiet);
	set.tuneIn(stationHz);
	return set;
}

function tune(set: VirtualSet, dialHz: number): void {
	const place = { frequencyHz: dialHz, toneHz: 400, depth: 0, into: 'antenna' } as const;
	set.place({ ...place, frequencyHz: dialHz * 0.98 }, set.placed.dialHz);
	set.place(place, set.placed.dialHz);
}

/** The whistle of the first two seconds in which one is heard, over a spell of the programme. */
function heard(set: VirtualSet): Whistle | null {
	let samples: number[] = [];
	let whistle: Whistle | null = null;
	const stop = tapVirtualSet(set, (volts) => {
		samples = [...samples, ...volts].slice(-2 * tapRateHz);
		if (samples.length === 2 * tapRateHz) {
			whistle = steadyWhistle(samples, tapRateHz);
			samples = [];
		}
	});
	for (let k = 0; k < 110 && whistle === null; k++) vi.advanceTimersByTime(100);
	stop();
	vi.advanceTimersByTime(100);
	return whistle;
}

test('the whistle with a station tells an old generator within 20 c at 1 Mc, IF as found far off or not, and by its second harmonic too', () => {
	// The second set's IF is 16 kc off.
	for (const seed of [5, 29]) {
		const set = played(seed, 1e6);
		tune(set, 993e3);
		const offHz = set.signal.frequencyHz - 1e6;
		expect(Math.abs(offHz)).toBeGreaterThan(200);
		expect(Math.abs((heard(set)?.beatHz.value ?? 0) - Math.abs(offHz))).toBeLessThan(0.5);
		set.tuneIn(910e3);
		tune(set, 451e3);
		const secondHz = 2 * set.signal.frequencyHz - 910e3;
		expect(Math.abs((heard(set)?.beatHz.value ?? 0) - Math.abs(secondHz))).toBeLessThan(0.5);
	}
});

test('the whistle falls by what the attenuator takes, down to what leaks with the lead off', () => {
	const set = played(5, 1e6);
	tune(set, 993e3);
	const decibels = (): { read: number; given: number } => ({
		read: heard(set)?.levelDbfs.value ?? Number.NaN,
		given: 20 * Math.log10(set.signal.levelV),
	});
	set.changeLevel(-10);
	const strong = decibels();
	set.changeLevel(-20);
	const weak = decibels();
	set.moveLead(false);
	const leak = decibels();
	expect(leak.given).toBeLessThan(weak.given);
	for (const one of [weak, leak])
		expect(Math.abs(strong.read - one.read - (strong.given - one.given))).toBeLessThan(0.4);
});

test('a good generator gives what it is set to, and a pointer that is moved leaves its station', () => {
	const set = played(5, 1e6);
	expect(set.signals).toHaveLength(5);
	set.takeGenerator('good');
	tune(set, 993e3);
	expect(set.signal.frequencyHz).toBe(993e3);
	set.place(set.placed.generator, 600e3);
	expect(set.signals).toHaveLength(1);
});

test('a generator whose own frequency gets into the IF whistles there too: it does not move as its second harmonic does', () => {
	const set = played(5, 910e3);
	const pitchHz = (dialHz: number): number => {
		tune(set, dialHz);
		return heard(set)?.beatHz.value ?? Number.NaN;
	};
	// The IF of this set is found at 447.8 kc, 7 kc below half of the station.
	const leaked = { fromHz: pitchHz(441.7e3), toHz: pitchHz(442e3) };
	expect(leaked.fromHz - leaked.toHz).toBeGreaterThan(200);
	expect(missedMoveHz(2, leaked, 300, 0)).toBe(600);
	const second = { fromHz: pitchHz(450.6e3), toHz: pitchHz(450.9e3) };
	expect(missedMoveHz(2, second, 300, 0)).toBeNull();
	expect(missedMoveHz(1, second, 300, 0)).toBe(300);
});

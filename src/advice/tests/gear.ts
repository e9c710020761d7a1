import { siValue } from '#record/quantity.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestMoment } from '#record/test-reading.ts';

/**
 * Gear as it is usual on a bench: a service generator within 2 dB and its attenuator within 1 dB, an AC meter within 0.3 dB, frequencies by a counter.
 * All limits are chosen; the person's own instruments may be better or worse and are asked for.
 */
export function usualGear(facts: SetFacts, moment: TestMoment): TestGear {
	const { voiceCoil } = facts.card;
	const usualChannelHz = 10e3;
	return {
		kind: 'test gear',
		moment,
		generator: 'service generator',
		meter: 'AC meter',
		generatorLimitDb: 2,
		attenuatorLimitDb: 1,
		meterLimitDb: 0.3,
		frequencyLimitHz: 100,
		pointerM: 0.2e-3,
		...(voiceCoil === undefined ? {} : { loadOhm: siValue('resistance', voiceCoil) }),
		channelHz: usualChannelHz,
		readsDistortion: false,
	};
}

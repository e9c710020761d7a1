import { usualGear } from '#advice/tests/gear.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestMoment } from '#record/test-reading.ts';
import type { CommandInput } from './command.ts';
import { quantityOption } from './input.ts';

/** The options by which a person says how far the gear can be trusted. */
export const testGearOptions = {
	generator: { type: 'string' },
	attenuator: { type: 'string' },
	meter: { type: 'string' },
	channel: { type: 'string' },
	distortion: { type: 'boolean' },
} as const;

/** How those options are written. */
export const testGearUsage =
	'[--generator 2dB|unknown] [--attenuator 1dB] [--meter 0.3dB] [--channel 9kc] [--distortion]';

/** The gear as the options have it; what they do not say is as usual. */
export function testGearOf(facts: SetFacts, moment: TestMoment, values: CommandInput['values']): TestGear {
	const usual = usualGear(facts, moment);
	return {
		...usual,
		generatorLimitDb:
			values.generator === 'unknown'
				? null
				: quantityOption('level', 'generator', values.generator, usual.generatorLimitDb),
		attenuatorLimitDb: quantityOption('level', 'attenuator', values.attenuator, usual.attenuatorLimitDb),
		meterLimitDb: quantityOption('level', 'meter', values.meter, usual.meterLimitDb),
		channelHz: quantityOption('frequency', 'channel', values.channel, usual.channelHz),
		readsDistortion: values.distortion === true || usual.readsDistortion,
	};
}

import type { Cause } from './cause.ts';

const canCaution =
	'Work on the can with the set unplugged, discharged and proved dead: its screws and leads may carry full B-plus.';

/** Causes in the IF strip and its cans. */
export const ifCauses = {
	misaligned: {
		words: 'Nothing is broken: adjusters are away from their places',
		shows: 'Every adjuster has a clear peak within its travel, and the loss goes when it is set.',
		remedy: ['Go on with the sheet, in its order.'],
		isSound: true,
	},
	'mica-low': {
		words: 'An IF winding has too little capacitance for its frequency',
		shows: 'The level still rises when its trimmer is at its tightest, or its core at the last thread inward.',
		remedy: [
			canCaution,
			'Stop at the stop.',
			'Work out what is missing and fit it beside the old capacitor, or replace that.',
		],
		part: 'mica',
	},
	'mica-high': {
		words: 'An IF winding has too much capacitance for its frequency',
		shows: 'The level still rises when its trimmer is loose, or its core at the last thread outward.',
		remedy: [canCaution, 'Leave the screw in its thread.', 'Replace the fixed capacitor by a smaller one.'],
		part: 'mica',
	},
	'mica-open': {
		words: 'The capacitor of an IF winding is open',
		shows:
			'Its adjuster changes almost nothing, the curve is low and blunt, the loss is great and alike over the band.',
		remedy: [canCaution, 'Replace the capacitor inside the can.'],
		part: 'mica',
	},
	'trimmer-shorted': {
		words: 'A trimmer touches: its plates or its post are shorted',
		shows: 'Nothing changes when it is turned, the stage is all but dead, an ohmmeter shows the short.',
		remedy: [canCaution, 'Loosen it, look for a cracked or shifted mica, replace the mica or the trimmer.'],
		part: 'mica',
	},
	'trimmer-cracked': {
		words: 'The mica of a trimmer is cracked',
		shows: 'The tuning jumps at one place of the turn instead of creeping, and not at the same place twice.',
		remedy: [canCaution, 'Do not force it.', 'Replace the mica sheet or the whole trimmer.'],
		part: 'mica',
	},
	'trimmer-dirty': {
		words: 'A trimmer is dirty or its spring has no grip',
		shows: 'The reading wavers while the tool touches it and drifts after it is left.',
		remedy: ['Clean it dry, unplugged.', 'Set it again and watch the level for five minutes.'],
	},
	'winding-open': {
		words: 'A winding or its lead is open',
		shows: 'The adjuster changes nothing, and the ohmmeter shows no path through the winding.',
		remedy: [
			canCaution,
			'Look at the joints of the lead at the lugs first: most breaks are there.',
			'Mend the lead or replace the can.',
		],
	},
	'winding-changed': {
		words: 'A winding has not the inductance it was made with',
		shows: 'With a known capacitor it resonates far from where it should; its partner does not.',
		remedy: [
			'Measure inductance and self-capacity with the can out of the set.',
			'Choose the capacitor by what was measured, or find another can.',
		],
		part: 'coil',
	},
	'capacitor-only': {
		words: 'The winding is sound and only wants its capacitor',
		shows: 'Resonance with a known capacitor gives an inductance that agrees with its partner.',
		remedy: [
			'Work out the capacitor from inductance, strays and adjuster.',
			'Check that its tolerance stays within the reach of the adjuster.',
		],
		part: 'mica',
		isSound: true,
	},
	'winding-damped': {
		words: 'Something loads an IF winding: a leak, moisture or a carbonised insulator',
		shows:
			'Gain is low alike over the band, the curve is broad, the peak of one adjuster is blunt, and alignment does not bring it back.',
		remedy: [
			canCaution,
			'Dry the can with gentle warmth.',
			'Look for a leaky capacitor and burnt marks.',
			'Replace what leaks.',
		],
	},
	'over-coupled': {
		words: 'The two windings are coupled for two humps by design',
		shows:
			'Two humps of equal height stay alike at any level; with one winding damped there is a single peak between them.',
		remedy: [
			'Peak each winding with the other one damped, or set the curve for symmetry by a sweep.',
			'Leave the two humps.',
		],
		isSound: true,
	},
	'coupling-changed': {
		words: 'The two windings are nearer to each other than they were made to be',
		shows: 'Two humps, or a curve far broader than its partner can has; a core stands in the inner of its two places.',
		remedy: [
			'Bring each core out to its outer peak, never inward in search of one.',
			'Look whether a rebuilt winding sits where it sat.',
		],
	},
	'if-moved': {
		words: 'The strip stands on another frequency than the dial was drawn for',
		shows:
			'The dial is off by the same number of kilocycles everywhere; the low end is dull; the curve itself is sound.',
		remedy: [
			'Find the IF as designed.',
			'Set the strip to it with a generator that was checked, then do the dial again.',
		],
		isSound: true,
	},
	'if-aim-wrong': {
		words: 'The strip is being set to a frequency that its coils were not made for',
		shows: 'Several adjusters of different cans run to the same end of their travel.',
		remedy: ['Find the IF as designed before any part is changed.', 'Ask the generator: check it against a station.'],
		isSound: true,
	},
	'too-strong': {
		words: 'The signal is so strong that AVC or overload flattens the peak',
		shows: 'The peak is clear when the generator is 20 dB weaker; a step of 6 dB reads as much less.',
		remedy: ['Turn the generator down until noise is just heard, volume full up, and peak again.'],
		isSound: true,
	},
	'fed-behind': {
		words: 'The signal enters behind the circuit that is being turned',
		shows: 'Adjusters behind the generator lead peak, those before it change nothing.',
		remedy: ['Hook up as the sheet says, with the set unplugged, discharged and proved dead.'],
		isSound: true,
	},
	'core-broken': {
		words: 'The core is broken or turns without moving',
		shows: 'The tool turns, the level does not answer, and the depth of the core stays the same.',
		remedy: [
			'Stop.',
			'Note its depth and leave it where it is.',
			'See whether the peak can be reached by the capacitor instead.',
		],
		part: 'mica',
	},
	'core-waxed': {
		words: 'The core is held by wax, paint or a paper',
		shows: 'A seal is seen on the thread, the core is whole, and the partner turns.',
		remedy: ['Leave it if the peak is near.', 'Soften wax by gentle warmth with the set unplugged; never force it.'],
	},
	'core-split': {
		words: 'The core is split and grips its former',
		shows: 'A crack is seen across the end; it moves by jerks.',
		remedy: [
			'Do not turn it further.',
			'Bring the circuit to its frequency by the capacitor, or replace the core from the other end.',
		],
		part: 'mica',
	},
	'core-hex': {
		words: 'The hexagon or slot of the core has broken out',
		shows: 'The tool slips at this end and holds at the other one.',
		remedy: [
			'Measure its depth first.',
			'Turn it from the other end with the tool that fits.',
			'Leave it if it does not give.',
		],
	},
	'standard-if': {
		words: 'The IF is the one that was aimed at',
		shows: 'Dial, image and sweep all agree with it.',
		remedy: ['Go on with it.'],
		isSound: true,
	},
	'other-if': {
		words: 'The maker used another IF',
		shows:
			'The dial fits over the whole band only with another frequency, and the cans peak there with screws in the middle of their travel.',
		remedy: ['Write it on the card as designed, with the reason.', 'Make the sheet again.'],
		isSound: true,
	},
	'double-if': {
		words: 'The set has two IFs',
		shows: 'Cans of two sizes in one strip, or a band switch that changes cans; a second oscillator or crystal.',
		remedy: ['Make a sheet for each.', 'Where there is a second conversion, the lower IF comes first.'],
		isSound: true,
	},
	'wrong-strip': {
		words: 'The other strip of the set was turned',
		shows: 'The adjusters answer on FM but not on AM, or the other way.',
		remedy: ['Bring those back by the marks.', 'Trace the leads of each can before the next turn.'],
		isSound: true,
	},
	'switch-position': {
		words: 'The selectivity switch stands at another position than it should',
		shows: 'Centre or width of the curve changes when the switch is turned.',
		remedy: [
			'Peak in the sharp position, then look at the broad one.',
			'If the centre moves by more than a tenth of the width, set for the best middle of both.',
		],
		isSound: true,
	},
} as const satisfies Readonly<Record<string, Cause>>;

import type { Cause } from './cause.ts';

const supplyHand = 'What is behind the mains plug belongs to a person who is allowed to mend it.';

/** Causes in tubes, AVC, audio and supply, and those that are heard. */
export const gainCauses = {
	'weak-converter': {
		words: 'The converter is weak',
		shows:
			'Loss alike over the band from antenna and from its own grid, while the IF tube\u2019s grid needs no more than it should; alignment does not bring it back.',
		remedy: [
			'Try a known good tube, set off.',
			'Measure its screen and plate voltage against the chart.',
			'Look at its cathode and grid resistors.',
		],
	},
	'weak-if-tube': {
		words: 'The IF tube is weak',
		shows:
			'Loss alike over the band, also with the generator at the IF tube\u2019s own grid; alignment does not bring it back.',
		remedy: ['Try a known good tube, set off.', 'Measure screen and cathode voltage against the chart.'],
	},
	'weak-output': {
		words: 'The audio part is weak',
		shows: 'A tone at the volume control gives too little, while the AVC line answers as it should.',
		remedy: ['Try the audio tubes, set off.', 'Look at the coupling capacitor, the plate resistor and the speaker.'],
	},
	'low-b-plus': {
		words: 'B-plus is low',
		shows: 'Everything is weak at once and the output clips early; the meter says less than the chart.',
		remedy: ['Rectifier and filter capacitors first.', 'Then look for what draws too much.'],
	},
	'coupling-capacitor': {
		words: 'The coupling capacitor leaks into the grid of the output tube',
		shows: 'The output grid is positive; the sound is strained and the output tube runs hot.',
		remedy: ['Switch off.', 'Replace the coupling capacitor before anything else.'],
	},
	'avc-leak': {
		words: 'The AVC line leaks',
		shows:
			'AVC volts are lower than the detector\u2019s; strong stations overload while weak ones play as well as ever.',
		remedy: ['Replace the capacitors of the AVC line.', 'Then look for a leak across a can or a socket.'],
		part: 'avc',
	},
	'avc-delayed': {
		words: 'The AVC is delayed by design',
		shows: 'The AVC line reads nothing below a certain signal and rises above it.',
		remedy: ['Read the output instead, or the detector\u2019s load.'],
		isSound: true,
	},
	'avc-capacitor': {
		words: 'A capacitor of the AVC line is open or has the wrong value',
		shows: 'Tuning in feels sluggish, or low tones are thin and the level pumps.',
		remedy: ['Fit the value of the chart.', 'Check the time constant.'],
		part: 'avc',
	},
	'shield-missing': {
		words: 'A stage feeds back: a shield is missing, or the metallising of a tube has lost its ground',
		shows: 'The curve grows narrow and tall as gain rises; it changes when the shields are put on.',
		remedy: [
			'Set off: every shield on its tube and can, every metallised tube grounded by its pin.',
			'Then peak again.',
		],
	},
	'bypass-open': {
		words: 'A stage feeds back: a screen, plate or AVC bypass capacitor is open',
		shows:
			'The curve grows narrow and tall as gain rises, shields or not; a good capacitor across the old one ends it.',
		remedy: [
			'Set off and discharged: fit a good capacitor of the same value and at least 630 V across one after the other.',
			'Replace the one that ends it.',
		],
	},
	'leads-near': {
		words: 'A stage feeds back: leads of grid and plate lie too near to each other',
		shows: 'It began after parts or leads were changed.',
		remedy: [
			'Set off: bring grid and plate leads back to where they were, short and apart, against the chassis.',
			'If it stays: detune one can a little from the other and accept the loss.',
		],
	},
	'converter-squeal': {
		words: 'The oscillator works so hard that it interrupts itself',
		shows: 'A hiss or squeal on a part of the band, more at its high end, that tuning changes and the IF does not.',
		remedy: [
			'Measure its grid resistor, set off.',
			'Look whether its coupling capacitor was replaced by a greater one.',
		],
	},
	birdie: {
		words: 'A whistle of two signals, not a fault',
		shows: 'It is there only near certain places of the dial, and its pitch goes through nought as the dial is turned.',
		remedy: ['Choose another frequency for this step.', 'Look whether it lies at twice the IF.'],
		isSound: true,
	},
	'audio-howl': {
		words: 'The speaker shakes the gang or a tube and howls',
		shows: 'It grows with the volume and goes when the volume is down.',
		remedy: ['Renew the rubber under the gang.', 'Try the tube nearest to the speaker, set off.'],
	},
	motorboating: {
		words: 'The audio stages putt through their supply: a filter or bypass capacitor is open',
		shows: 'A slow regular putting, a few beats in a second, with or without a station.',
		remedy: ['Replace the last filter capacitor and the bypass capacitors of the audio stages.'],
	},
	'silver-mica': {
		words: 'Silver creeps in the mica capacitor of an IF can',
		shows:
			'Frying and crackling without a station, level jumping with it; ahead of the volume control; worse when warm.',
		remedy: [
			'Find the can: quiet one stage after the other.',
			'Replace its mica capacitors by new ones outside or inside the can.',
		],
		part: 'mica',
	},
	'dirty-contact': {
		words: 'A dirty contact: volume control, switch or socket',
		shows: 'It crackles when that knob or tube is moved and rests when it is not.',
		remedy: ['Clean it, set unplugged.'],
	},
	'noisy-tube': {
		words: 'A tube is noisy',
		shows: 'Hiss or crackle that goes when the tube is changed.',
		remedy: ['Try a known good tube, set off.'],
	},
	'outside-noise': {
		words: 'The noise comes from outside',
		shows:
			'It goes when antenna or loop is off and the dummy antenna is on the terminal; a portable beside the set hears it too.',
		remedy: [
			'Switch off lamps and chargers one by one.',
			'The least generator level that can be used is set by what is left.',
		],
		isSound: true,
	},
	'filter-capacitor': {
		words: 'A filter capacitor is dry',
		shows:
			'Hum at twice the mains frequency where the rectifier is full-wave, at the mains frequency where it is half-wave; it stays with the volume down.',
		remedy: ['Replace the filter capacitors; do not hang new ones across the old.'],
	},
	'heater-cathode': {
		words: 'A tube leaks from heater to cathode',
		shows: 'Hum at the mains frequency; it goes when one tube is changed.',
		remedy: ['Try known good tubes one by one, set off.'],
	},
	'ground-loop': {
		words: 'The instruments bring the hum',
		shows: 'It goes when the instrument\u2019s lead is taken off; the set alone is quiet.',
		remedy: [
			'One earthed instrument on the set\u2019s common, only behind the isolation transformer; the others floating or none.',
			'Never lift the earth of an instrument.',
			'A microphone needs no contact.',
		],
		isSound: true,
	},
	'tunable-hum': {
		words: 'The mains modulates the signal on its way in',
		shows: 'Hum only while a carrier is tuned in.',
		remedy: [
			'Look at the line bypass capacitor of the set: only one that is rated for the mains.',
			'Try another place for antenna and mains lead.',
		],
	},
	'live-chassis': {
		words: 'The chassis is joined to the mains by design',
		shows: 'The voltage from chassis to earth changes with the way the plug goes in.',
		remedy: [
			'Isolation transformer for this set alone.',
			'Nothing earthed on it without that.',
			'Knob screws and back stay covered.',
		],
		isSound: true,
	},
	'line-capacitor': {
		words: 'A line bypass capacitor leaks to the chassis',
		shows:
			'A voltage from chassis to earth with either way of the plug; it falls far when a load is put across the meter.',
		remedy: ['Unplug it and leave it unplugged until the capacitor is replaced by one rated for the mains.'],
		handOver: supplyHand,
	},
	'insulation-leak': {
		words: 'The insulation of transformer, lead or switch has failed',
		shows:
			'A voltage from chassis to earth that does not fall under the load of the meter, or a path in ohms from plug to chassis of a set that should have none.',
		remedy: ['Unplug it and leave it unplugged.'],
		handOver: supplyHand,
	},
	'set-isolated': {
		words: 'The chassis is free of the mains',
		shows: 'Next to nothing from chassis to earth, both ways of the plug, switch on and off.',
		remedy: ['Go on; measure again when anything of the supply was changed.'],
		isSound: true,
	},
} as const satisfies Readonly<Record<string, Cause>>;

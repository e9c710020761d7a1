import type { Cause } from './cause.ts';

const oscillatorHand = 'Set unplugged, discharged and proved dead before a hand goes in.';

/** Causes in oscillator, antenna circuits, dial and bench, and kinds of sets that have their own way. */
export const dialCauses = {
	'osc-trimmer-off': {
		words: 'The oscillator trimmer is away from its place',
		shows: 'The dial is off at the high end and right at the low end; the trimmer brings it in.',
		remedy: ['Set it at the high mark, then look at the low end, then once more.'],
		isSound: true,
	},
	'padder-set': {
		words: 'The padder, or the oscillator\u2019s core, is away from its place',
		shows: 'The dial is off at the low end and right at the high end; the screw brings it in.',
		remedy: ['Set it at the low mark while rocking the gang, then the high end once more.'],
		isSound: true,
	},
	'padder-changed': {
		words: 'The padder\u2019s capacitor has changed its value',
		shows: 'The low end cannot be brought in: its screw runs to the end of its travel.',
		remedy: ['Work out the value that the band wants and fit it.', oscillatorHand],
		part: 'padder',
	},
	'osc-coil-changed': {
		words: 'The oscillator coil has not its inductance',
		shows:
			'Trimmer and padder both run toward their ends, and the middle of the dial stays off when both ends are right.',
		remedy: ['Look for a core that was moved or a turn that is shorted.', 'Measure it out of the set.', oscillatorHand],
		part: 'coil',
	},
	'osc-strays': {
		words: 'Something adds capacitance across the oscillator',
		shows: 'The high end cannot be brought in: the trimmer is loose and the dial still reads off.',
		remedy: [
			'Bring the leads of the oscillator back to where they were.',
			'Look for a trimmer that was replaced by a greater one.',
			oscillatorHand,
		],
	},
	'gang-plates': {
		words: 'Plates of the gang are bent',
		shows: 'The dial is right at both ends and off in between, at one place more than beside it.',
		remedy: ['Look along the plates against the light.', 'Bend back only what is plainly bent, set unplugged.'],
	},
	'gang-short': {
		words: 'Plates of the gang touch',
		shows: 'A scraping noise at one place of the dial and silence beyond it; an ohmmeter shows it, set unplugged.',
		remedy: ['Look along the plates against the light while turning, set unplugged.', 'Free the ones that touch.'],
	},
	'pointer-slipped': {
		words: 'The pointer has slipped on its cord or shaft',
		shows: 'Off by the same distance on the scale everywhere: more kilocycles where the scale is crowded.',
		remedy: ['Gang fully meshed: pointer to the end mark.', 'Fasten it and mark the place.'],
		isSound: true,
	},
	'osc-tube-weak': {
		words: 'The oscillator tube is too weak to oscillate over the whole band',
		shows: 'It stops below, or above, one place of the dial; a known good tube brings it back.',
		remedy: ['Try a known good tube, set off.', 'Measure plate and screen voltage against the chart.'],
	},
	'osc-coil-damp': {
		words: 'The oscillator coil is damp or leaks',
		shows: 'Where it stops moves with the weather; gentle warmth brings it back.',
		remedy: ['Dry it with gentle warmth, set unplugged.', 'Then seal it with the wax it had.'],
	},
	'osc-joint': {
		words: 'A joint, a switch contact or a resistor of the oscillator is bad',
		shows: 'It starts and stops by itself or when the band switch is moved.',
		remedy: ['Clean the switch, go over the joints, measure the resistors against the chart; set unplugged.'],
	},
	'osc-coupling': {
		words: 'A coupling capacitor of the oscillator was replaced by another value',
		shows: 'Dial and strength changed on the day when it was replaced.',
		remedy: ['Fit the value of the chart, and put its leads where the old ones were.'],
	},
	'antenna-coil-damped': {
		words: 'The antenna coil is damped: moisture, a leak or a part across it',
		shows:
			'Loss from the antenna alike or rising with frequency, none from the converter grid; a blunt peak of the antenna trimmer; alignment does not bring it back.',
		remedy: ['Dry it with gentle warmth, set unplugged.', 'Look for a resistor or a leak across it.'],
	},
	'antenna-coil-open': {
		words: 'The winding from antenna to ground is open',
		shows:
			'Great loss from the antenna terminal and none from the converter grid; an ohmmeter shows no path, set unplugged.',
		remedy: ['Lightning and too strong a generator open it: mend the break or wind it anew.'],
		part: 'coil',
	},
	'antenna-strays': {
		words: 'The antenna circuit has more, or less, capacitance than its trimmer can take up',
		shows: 'Loss that rises with frequency; the antenna trimmer\u2019s best is at the end of its travel.',
		remedy: ['Bring the leads back to where they were.', 'Look for a trimmer or a coil that was replaced.'],
	},
	'trap-off': {
		words: 'The wave trap is tuned into the band',
		shows: 'One part of the band, mostly the low end, is deaf; the rest is right; the trap\u2019s screw changes it.',
		remedy: [
			'Feed the IF into the antenna terminal, strong, the set tuned to the low end.',
			'Set the trap for the least output.',
		],
		isSound: true,
	},
	'loop-off': {
		words: 'The loop antenna is off, or not in its place',
		shows:
			'Weak, squealing, and the antenna trimmer without a peak; right when the loop is connected and in its cabinet.',
		remedy: [
			'Connect it, set unplugged, and put it where it stands in the cabinet.',
			'Antenna trimmer last, with the loop there.',
		],
		isSound: true,
	},
	'loop-open': {
		words: 'A lead of the loop is broken',
		shows: 'The ohmmeter shows no path through the loop, set unplugged.',
		remedy: ['Look at its ends and at the hinge of the back.', 'Mend it; then the antenna trimmer again.'],
	},
	'image-chosen': {
		words: 'The set was brought in on the image',
		shows: 'The same signal is heard again twice the IF away, and stronger there.',
		remedy: [
			'Set the trimmer to its other place: with the oscillator above, the one with less capacitance.',
			'Then the antenna circuit again.',
		],
		isSound: true,
	},
	'oscillator-below': {
		words: 'This band has its oscillator below the signal',
		shows: 'A second receiver hears the oscillator at dial less IF; the image lies below.',
		remedy: ['Write it on the card for this band.', 'Make the sheet again.'],
		isSound: true,
	},
	'leads-moved': {
		words: 'Leads or parts were moved when others were replaced',
		shows: 'Stations moved on the day of the work, all of one circuit.',
		remedy: [
			'Bring long leads back to where they were, set unplugged.',
			'Then the sheet from the step of that circuit on.',
		],
	},
	'padder-fixed': {
		words: 'The padder is a fixed capacitor',
		shows:
			'No screw is found at the low end, and a capacitor of some hundred micro-microfarads stands in the oscillator.',
		remedy: ['See what dial error its tolerance leaves.', 'Choose between that and another value.'],
		part: 'padder',
		isSound: true,
	},
	'cut-plates': {
		words: 'The gang has cut plates and needs no padder',
		shows: 'The oscillator\u2019s section is smaller than the antenna\u2019s; there is nothing to set at the low end.',
		remedy: ['The IF must be right: the dial hangs on it.', 'High end by the trimmer, low end as it comes.'],
		isSound: true,
	},
	'padder-sealed': {
		words: 'The padder is there but sealed',
		shows: 'A screw under wax or paint.',
		remedy: ['Leave it if the low end is near.', 'Soften the seal with gentle warmth, set unplugged; never force it.'],
		isSound: true,
	},
	'generator-leaks': {
		words: 'The generator leaks round its attenuator',
		shows: 'The set still hears it with the attenuator at nought and the lead taken off.',
		remedy: ['Put it further away, on its own outlet.', 'Build a pad behind it and measure what is left.'],
		part: 'attenuator',
		isSound: true,
	},
	'lead-unshielded': {
		words: 'The generator\u2019s lead radiates',
		shows: 'The level changes when the lead is moved; it goes when the lead is taken off.',
		remedy: ['Shielded lead up to the dummy antenna, its shield on the set\u2019s common.'],
		part: 'dummy',
		isSound: true,
	},
	'attenuator-end': {
		words: 'The attenuator does not go low enough',
		shows: 'With the attenuator at its end the level is too strong, and a pad makes it weaker by what it should.',
		remedy: ['Put a pad between generator and dummy antenna.'],
		part: 'attenuator',
		isSound: true,
	},
	'generator-dial': {
		words: 'The generator\u2019s dial is off',
		shows: 'At zero beat with a station of known frequency its dial reads another one.',
		remedy: [
			'Note the correction at three stations.',
			'Set it by zero beat or with a receiver that shows its frequency.',
		],
		isSound: true,
	},
	'harmonic-used': {
		words: 'A harmonic of the generator is heard, not its own frequency',
		shows: 'It is heard again at half or at a third of the setting, and stronger.',
		remedy: ['Turn the generator to the lower range and make sure where it is strongest.'],
		isSound: true,
	},
	'counter-off': {
		words: 'The counter is off',
		shows: 'Generator and station agree at zero beat, the counter shows something else.',
		remedy: ['Note what it says of a station and correct by it.'],
		isSound: true,
	},
	'generator-drift': {
		words: 'The generator drifts',
		shows: 'The beat with a station moves on over the minutes.',
		remedy: ['Let it warm for half an hour.', 'Read a reference before and after each adjuster.'],
		isSound: true,
	},
	'car-set': {
		words: 'A car set: cores moved by a cord instead of a gang',
		shows: 'No gang; the antenna circuit belongs to the antenna of the car.',
		remedy: [
			'Dummy antenna as the sheet says; the antenna trimmer last, in the car, on its own antenna, near the high end.',
		],
		part: 'dummy',
		isSound: true,
	},
	'short-wave-pull': {
		words: 'Short wave: the antenna trimmer pulls the oscillator',
		shows: 'The station moves while the antenna trimmer is turned.',
		remedy: ['Rock the gang while turning.', 'Make sure first that it is not the image.'],
		isSound: true,
	},
	'fm-curve': {
		words: 'FM: the discriminator wants symmetry, not a peak',
		shows: 'The voltage goes through nought in the middle of the station and swings as far on both sides.',
		remedy: [
			'Strip for the greatest level first.',
			'Then the secondary of the last can for nought in the middle, and for the same swing on both sides.',
		],
		isSound: true,
	},
	'transistor-set': {
		words: 'A transistor set: low impedances, cores, a rod antenna',
		shows: 'A coloured core at the oscillator, the antenna coil on a rod.',
		remedy: [
			'Low end by the oscillator\u2019s core and the place of the coil on its rod, high end by the trimmers.',
			'Loosely coupled generator only.',
		],
		isSound: true,
	},
	'trf-set': {
		words: 'No oscillator: tuned radio-frequency stages',
		shows: 'No IF cans; two or more alike coils and gang sections.',
		remedy: [
			'Trimmers at the high end for the greatest level.',
			'Lower down the slotted end plates, place by place, back to the high end last.',
		],
		isSound: true,
	},
	'reflex-set': {
		words: 'A reflex set: one tube carries IF and audio at once',
		shows: 'Fewer tubes than stages; volume acts on the IF gain as well.',
		remedy: [
			'Weak signal, volume where the chart says.',
			'If it howls: the bypass capacitors that part the two first.',
		],
		isSound: true,
	},
} as const satisfies Readonly<Record<string, Cause>>;

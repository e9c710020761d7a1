import type { SignalInto } from './signal.ts';
import type { SetValues } from './values.ts';

/** Resistance behind a generator's lead, ohms (chosen: of the size that service generators have); 0.1 mfd in series with it is 3.5 ohms at 455 kc and left out there. */
const generatorOhm = 50;
/** In series with the lead at a grid: no bar to a tone (its share of the volume control's voltage at 50 c is 0.02 dB, left out), and a short for the detector's own. */
const seriesF = 0.1e-6;
const ifGridWinding = 1;

/** Current into the IF tube's grid for a volt of generator, open circuit, siemens. */
export const ifGridLeadS = 1 / generatorOhm;

/** A set with a generator's lead clipped to a place: at the IF tube's grid the generator's resistance loads the winding, at the volume control its condenser lies across the load. */
export function withLead(values: SetValues, into: SignalInto): SetValues {
	if (into === 'IF grid')
		return {
			...values,
			windings: values.windings.map((winding, at) =>
				at === ifGridWinding ? { ...winding, siemens: winding.siemens + ifGridLeadS } : winding,
			),
		};
	if (into === 'audio grid')
		return { ...values, detector: { ...values.detector, reservoirF: values.detector.reservoirF + seriesF } };
	return values;
}

import { expect, test } from 'vitest';
import { ngspice } from '../../test/ngspice.ts';
import { switchablePad } from './switchable-pad.ts';

/** Volts at the load of the pad by ngspice, with these sections switched in. */
function loadV(isIn: readonly boolean[]): number {
	const { impedanceOhm, sections, loadOhm } = switchablePad();
	const arms = sections.map(({ seriesOhm, shuntOhm }, index) =>
		isIn[index]
			? `RA${index} n${index} 0 ${shuntOhm}\nRB${index} n${index} n${index + 1} ${seriesOhm}\nRC${index} n${index + 1} 0 ${shuntOhm}`
			: `RB${index} n${index} n${index + 1} 1u`,
	);
	const [row = []] = ngspice(`pad
V1 s 0 DC 1
RS s n0 ${impedanceOhm}
${arms.join('\n')}
RL n${sections.length} 0 ${loadOhm}
.control
option numdgt=12
op
wrdata OUT v(n${sections.length})
.endc
.end`);
	return row[1] ?? Number.NaN;
}

test('each switch takes away what the sheet says of it, and both together the sum, by ngspice', () => {
	const [small, large] = switchablePad().sections;
	const step = (isIn: readonly boolean[]) => 20 * Math.log10(loadV([false, false]) / loadV(isIn));
	expect(Math.abs(step([true, false]) - (small?.lossDb ?? Number.NaN))).toBeLessThan(0.1);
	expect(Math.abs(step([false, true]) - (large?.lossDb ?? Number.NaN))).toBeLessThan(0.1);
	expect(Math.abs(step([true, true]) - 26)).toBeLessThan(0.5);
});

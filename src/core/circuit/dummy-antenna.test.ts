import { expect, test } from 'vitest';
import { ngspice } from '../../../test/ngspice.ts';
import { dummyImpedance } from './dummy-antenna.ts';

// The network is published [friedrichs-dummy]; ngspice, an independent simulator, says what it is worth.
test('the standard dummy antenna has the impedance that ngspice finds', () => {
	const rows = ngspice(`dummy antenna
I1 0 a AC 1
C1 a b 200p
L1 b 0 20u
C2 b c 400p
R1 c 0 400
R2 a 0 1e12
.control
set wr_singlescale
set wr_vecnames
option numdgt=12
ac dec 6 0.5meg 20meg
wrdata OUT real(v(a)) imag(v(a))
.endc
.end`);
	expect(rows.length).toBeGreaterThan(8);
	for (const [frequencyHz = 0, re = 0, im = 0] of rows) {
		const found = dummyImpedance(frequencyHz);
		expect(Math.hypot(found.re - re, found.im - im)).toBeLessThan(1e-6 * Math.hypot(re, im));
	}
});

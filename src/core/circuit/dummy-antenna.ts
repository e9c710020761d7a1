import { type Complex, complex, over, plus } from '#core/numeric/complex.ts';

/** Dummy antenna of broadcast receiver tests: 200 pF, then 20 uH beside 400 pF with 400 ohms [friedrichs-dummy]. */
export const standardDummy = { seriesF: 200e-12, coilH: 20e-6, branchF: 400e-12, branchOhm: 400 } as const;

/** Single parts that stand for an antenna: up to 1,700 kc about 200 mmf, above it 400 ohms [radioexperimenter]. */
export const simpleDummy = { upToHz: 1.7e6, seriesF: 200e-12, aboveOhm: 400 } as const;

/**
 * Impedance of the standard dummy antenna, ohms, at a frequency.
 * @example dummyImpedance(1e6).re // => ~26.98
 */
export function dummyImpedance(frequencyHz: number): Complex {
	const omega = 2 * Math.PI * frequencyHz;
	const { seriesF, coilH, branchF, branchOhm } = standardDummy;
	const coil = complex(0, omega * coilH);
	const branch = complex(branchOhm, -1 / (omega * branchF));
	const one = complex(1, 0);
	const beside = over(one, plus(over(one, coil), over(one, branch)));
	return plus(complex(0, -1 / (omega * seriesF)), beside);
}

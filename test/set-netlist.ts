import type { SetValues, WindingValues } from '#core/receiver/values.ts';

/** The IF strip as a netlist: an ampere into the converter's plate, nodes 1 to 4; tube and diode linear. */
export function stripNetlist({ windings, mutualH, tubes }: SetValues, ifTubeS: number, diodeS: number): string {
	const lines: string[] = [];
	windings.forEach((winding, at) => {
		const n = at + 1;
		lines.push(`C${n} ${n} 0 ${winding.farad}`, `R${n} ${n} m${n} ${winding.ohm}`, `L${n} m${n} 0 ${winding.henry}`);
		if (winding.siemens > 0) lines.push(`RP${n} ${n} 0 ${1 / winding.siemens}`);
	});
	const coupling = (transformer: 0 | 1): number => {
		const first = windings[2 * transformer] as WindingValues;
		const second = windings[2 * transformer + 1] as WindingValues;
		return mutualH[transformer] / Math.sqrt(first.henry * second.henry);
	};
	lines.push(
		`K1 L1 L2 ${coupling(0)}`,
		`K2 L3 L4 ${coupling(1)}`,
		`RP 1 0 ${tubes.converterPlateOhm}`,
		`RQ 3 0 ${tubes.ifTubePlateOhm}`,
		`CF 2 3 ${tubes.feedbackF}`,
		`GT 3 0 2 0 ${ifTubeS}`,
		`RD 4 0 ${1 / diodeS}`,
	);
	return lines.join('\n');
}

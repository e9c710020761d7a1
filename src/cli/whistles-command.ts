import { whistles } from '#core/estimate/whistles.ts';
import { InputFault } from './command.ts';
import { bandOption } from './dial-options.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';
import { stationsIn } from './stations-file.ts';

export const whistlesCommand = spokenCommand({
	name: 'whistles',
	summary: 'whistles that a set makes by itself beside the stations that are wanted',
	usage:
		'--if 455kc --band 540kc-1600kc --stations FILE.csv [--wanted FILE.csv] [--oscillator above|below] [--all yes] [--json]',
	examples: ['npx peakwright whistles --if 455kc --band 540kc-1600kc --stations stations.csv'],
	options: {
		...Object.fromEntries(
			['if', 'band', 'stations', 'wanted', 'oscillator', 'all'].map((name) => [name, { type: 'string' as const }]),
		),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, { say, term, frequency, dial }) {
		if (positionals.length > 0) throw new InputFault(`cannot use "${positionals[0]}": whistles takes options only`);
		const options = new PartOptions(values);
		const band = bandOption(options);
		const ifHz = options.quantity('frequency', 'if', '455kc');
		const side = options.oneOf('oscillator', ['above', 'below'], 'above');
		const stations = stationsIn(options.words('stations', 'stations.csv'));
		const given = options.has('wanted') ? stationsIn(options.words('wanted', 'wanted.csv')) : stations;
		const wanted = given.filter((station) => station >= band.lowHz && station <= band.highHz);
		const all = whistles(ifHz, band, side, stations, wanted);
		const isAll = options.oneOf('all', ['yes', 'no'], 'no') === 'yes';
		const lines = isAll ? all : all.filter(({ wantedHz }) => wantedHz !== null);
		if (values.json === true) {
			output.line(JSON.stringify({ lines, hiddenCount: all.length - lines.length }));
			return;
		}
		for (const { dialHz, kind, formula, stationsHz, wantedHz, toneHz } of lines) {
			const from = stationsHz.length > 0 ? ` ${say`from ${stationsHz.map(frequency).join(say` and `)}`}` : '';
			const where = wantedHz === null ? '' : `, ${say`beside ${dial(wantedHz)}: tone ${frequency(toneHz ?? 0)}`}`;
			output.line(`${dial(dialHz).padStart(10)}  ${term(kind)}, ${formula}${from}${where}`);
		}
		if (lines.length === 0) output.line(say`None within 5 kc of a wanted station.`);
		if (!isAll && all.length > lines.length) {
			output.line(say`${all.length - lines.length} more lie away from wanted stations: --all yes shows them.`);
		}
	},
});

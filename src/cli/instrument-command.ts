import { type Trial, trials } from '#instruments/scpi/description-trial.ts';
import { instrumentDrawer } from '#storage/instrument-drawer.ts';
import { type Command, InputFault } from './command.ts';
import { readInput } from './input.ts';
import { instrumentAt } from './instrument-place.ts';
import { withStore } from './shelf-commands.ts';

const outcome = ({ kind, words }: Trial): string => {
	if (kind === 'done') return 'taken';
	return kind === 'said' ? `answered ${words}` : words;
};

export const instrumentCommand: Command = {
	name: 'instrument',
	summary: 'finds an instrument that speaks SCPI, asks it, and tries its description line by line',
	usage: "PLACE [--description FILE.json] [--ask '*IDN?'] [--try] [--keep generator|meter] [--data FOLDER] [--json]",
	examples: [
		'npx peakwright instrument 192.168.1.20',
		"npx peakwright instrument serial:/dev/ttyUSB0 --description my-meter.json --ask 'VAL?'",
		'npx peakwright instrument 192.168.1.20:5025 --description my-generator.json --try',
		'npx peakwright instrument 192.168.1.20:5025 --description my-generator.json --keep generator',
	],
	options: {
		description: { type: 'string' },
		ask: { type: 'string' },
		try: { type: 'boolean' },
		keep: { type: 'string' },
		data: { type: 'string' },
		json: { type: 'boolean' },
	},
	async run(input, output) {
		const { values, positionals } = input;
		const [place, ...more] = positionals;
		if (place === undefined || more.length > 0)
			throw new InputFault('give the place of one instrument: npx peakwright instrument HOST:PORT or serial:PATH');
		const { session, description } = instrumentAt(place, values.description);
		const question = typeof values.ask === 'string' ? values.ask : null;
		if (question !== null && !/^[\x20-\x7e]+\?[\x20-\x7e]*$/.test(question))
			throw new InputFault('--ask: give one question, such as *IDN? or MEAS:VOLT:AC?');
		const { keep } = values;
		if (keep !== undefined && keep !== 'generator' && keep !== 'meter')
			throw new InputFault('--keep: give generator or meter');
		try {
			const identity = await session.identity();
			if (identity.kind !== 'said') throw new InputFault(identity.words);
			const answer = question === null ? null : await session.ask(question);
			if (answer && answer.kind !== 'said') throw new InputFault(answer.words);
			const tried = values.try === true ? await trials(session, description) : null;
			if (keep !== undefined) {
				const text =
					typeof values.description === 'string'
						? readInput(values.description, 'the description').toString('utf8')
						: null;
				await withStore(input, (store) => instrumentDrawer(store).name(keep, { place, description: text }));
			}
			if (values.json === true) {
				output.line(
					JSON.stringify({
						place,
						...(keep === undefined ? {} : { keptAs: keep }),
						identity: identity.text,
						...(answer ? { answer: answer.text } : {}),
						...(tried ? { lines: tried } : {}),
					}),
				);
				return;
			}
			output.line(`${place} is ${identity.text}`);
			if (answer) output.line(answer.text);
			if (keep !== undefined) output.line(`kept as your ${keep}: page and terminal use it from now on`);
			for (const trial of tried ?? [])
				output.line(`${trial.what.padEnd(28)} ${trial.line.padEnd(28)} ${outcome(trial)}`);
		} finally {
			session.close();
		}
	},
};

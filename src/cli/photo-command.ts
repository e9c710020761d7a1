import { readFileSync, statSync } from 'node:fs';
import { givenPhotoBytes, photoMoments, photoViews, photoWords } from '#record/photo.ts';
import { tooLargePhoto } from '#server/photo-intake.ts';
import { takePhoto } from '#server/photo-route.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { type Command, InputFault } from './command.ts';
import { dataOption, withStore } from './shelf-commands.ts';

/** What a file holds, unless it is larger than any photograph that is taken. */
function photoBytes(path: string): Uint8Array {
	try {
		if (statSync(path).size > givenPhotoBytes) throw new InputFault(`${path}: ${tooLargePhoto}`);
		return readFileSync(path);
	} catch (error) {
		if (error instanceof InputFault) throw error;
		throw new InputFault(`cannot open ${path}: ${(error as NodeJS.ErrnoException).code}; give a photograph`);
	}
}

function chosen<Name extends string>(option: string, given: unknown, names: readonly Name[], usual: Name): Name {
	if (given === undefined) return usual;
	const name = names.find((one) => one === given);
	if (name === undefined) throw new InputFault(`--${option}: cannot use "${String(given)}": give ${names.join(', ')}`);
	return name;
}

export const photoCommand: Command = {
	name: 'photo',
	summary: 'keeps photographs with a set; without a file, lists them',
	usage: `SET [FILE ...] [--view ${photoViews.map((view) => (view.includes(' ') ? `"${view}"` : view)).join('|')}] [--moment before|after] [--caption "..."] [--data FOLDER] [--json]`,
	examples: [
		'npx peakwright photo thistlemoor-tm-517 under.jpg --view under --caption "As it came in" --moment before',
		'npx peakwright photo thistlemoor-tm-517',
	],
	options: {
		...dataOption,
		view: { type: 'string' },
		moment: { type: 'string' },
		caption: { type: 'string' },
		json: { type: 'boolean' },
	},
	run: (input, output) =>
		withStore(input, async (store) => {
			const { values, positionals } = input;
			const [set, ...paths] = positionals;
			const house = { shelf: sqliteShelf(store), album: sqliteAlbum(store), nowMs: Date.now };
			if (set === undefined || (await house.shelf.set(set)) === null)
				throw new InputFault('give a set that is on the shelf: npx peakwright sets lists them');
			const caption = typeof values.caption === 'string' ? values.caption : '';
			if (!photoWords.shape.caption.safeParse(caption).success)
				throw new InputFault('--caption: give at most 200 letters');
			const words = {
				view: chosen('view', values.view, photoViews, 'top'),
				moment: chosen('moment', values.moment, photoMoments, 'any time'),
				caption,
			};
			for (const path of paths) {
				const taken = await takePhoto(house, set, photoBytes(path), words);
				if (!taken.ok) throw new InputFault(`${path}: ${taken.words}`);
				output.notice(`${path}: kept as ${taken.value.widthPx} x ${taken.value.heightPx} points.`);
			}
			const photos = await house.album.photos(set);
			if (values.json === true) output.line(JSON.stringify({ photos }));
			else if (paths.length === 0)
				for (const { id, view, moment, caption: said } of photos)
					output.line(`${id}  ${view.padEnd(11)} ${moment.padEnd(8)} ${said}`);
		}),
};

/** Black on white, with the typefaces of the printed page; rules are plain enough for a typesetter's reader of SVG. */
const style = [
	"text { fill: #000; font-family: 'Source Sans 3', sans-serif; font-weight: 600; font-size: 16px; }",
	'.small { font-weight: 400; font-size: 15px; }',
	'.ink-line { fill: none; stroke: #000; stroke-width: 1.2; }',
	'rect.ink-line { fill: #fff; }',
	'circle.open { fill: #fff; }',
	'.hair { fill: none; stroke: #777; stroke-width: 0.6; }',
	'.dashed { stroke-dasharray: 4 3; }',
	'.joint { fill: #000; }',
	'path.before { fill: none; stroke: #777; stroke-width: 1.2; }',
	'path.fit { fill: none; stroke: #000; stroke-width: 1.2; }',
	'path.target { fill: none; stroke: #000; stroke-width: 1.2; stroke-dasharray: 6 4; }',
	'path.cursor, path.band { fill: none; }',
	'circle.point { fill: #fff; stroke: #000; stroke-width: 1.2; }',
	'.tag circle { fill: #fff; stroke: #000; stroke-width: 1.2; }',
	'.halo .ink-line { stroke: #fff; stroke-width: 4; }',
	'.halo .joint { fill: #fff; stroke: #fff; stroke-width: 3; }',
	'.tag.under circle { stroke-dasharray: 4 3; }',
].join('\n');

/** A drawing as it goes on paper: it carries its own lines and letters. */
export function printed(drawing: string): string {
	return drawing.replace('>', `><style>${style}</style>`);
}

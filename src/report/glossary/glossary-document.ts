import { GLOSSARY, type GlossaryPart } from './glossary.ts';

function chapter({ title, entries }: GlossaryPart): string {
  const rows = entries.map(({ term, meaning }) => `| ${term} | ${meaning} |\n`).join('');
  return `## ${title}\n\n| term | meaning |\n|---|---|\n${rows}`;
}

/** The glossary as a Markdown document, docs/glossary.md. */
export function glossaryDocument(): string {
  const opening = `# Glossary

Plain words for the terms of the trade, in the order in which the water meets them; then the words for pressure, and the words
for the ground. Written by \`node scripts/glossary-doc.mjs\` from the words that the page shows under “Help”.
`;
  return [opening, ...GLOSSARY.map(chapter)].join('\n');
}

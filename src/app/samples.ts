/** The sample projects that come with the bench, by file name. */
const files = import.meta.glob<string>('../../shared/samples/*.roofs.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});

export const samples: readonly { readonly title: string; readonly units: string; readonly text: string }[] =
  Object.entries(files)
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([name, text]) => {
      const { title, units } = JSON.parse(text) as { title?: string; units?: string };
      return { title: title ?? name, units: units === 'mm' ? 'millimetres' : 'inches', text };
    });

/** The demo projects that come with the program, as texts of project files. */
const files = import.meta.glob<string>("../../assets/demo/*.ribband.json", {
  query: "?raw",
  import: "default",
});

export interface Demo {
  readonly id: string;
  read(): Promise<string>;
}

export const demos: readonly Demo[] = Object.entries(files).map(([path, read]) => ({
  id: path.replace(/^.*\//, "").replace(/\.ribband\.json$/, ""),
  read,
}));

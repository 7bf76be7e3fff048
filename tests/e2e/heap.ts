import type { CDPSession } from "playwright-core";

/** What the page's memory is made of once its garbage is collected, MB. */
export interface Heap {
  /** Objects, functions, texts and figures: all that the app's own doings make. */
  readonly objectsMb: number;
  /** What its typed arrays hold: meshes, above all. */
  readonly buffersMb: number;
  /** What the engine makes of the program: it is compiled piece by piece, and again to be faster, as it proves to be in use. */
  readonly codeMb: number;
}

interface Snapshot {
  readonly snapshot: {
    readonly meta: {
      readonly node_fields: readonly string[];
      readonly node_types: readonly [readonly string[], ...unknown[]];
    };
  };
  readonly nodes: readonly number[];
  readonly strings: readonly string[];
}

/** Takes a snapshot of a page's heap and sums it up. */
export async function weighHeap(session: CDPSession): Promise<Heap> {
  const chunks: string[] = [];
  const take = ({ chunk }: { chunk: string }) => chunks.push(chunk);
  session.on("HeapProfiler.addHeapSnapshotChunk", take);
  await session.send("HeapProfiler.takeHeapSnapshot", { reportProgress: false });
  session.off("HeapProfiler.addHeapSnapshotChunk", take);
  const { snapshot, nodes, strings }: Snapshot = JSON.parse(chunks.join(""));
  const { node_fields: fields, node_types } = snapshot.meta;
  const [type, name, size] = ["type", "name", "self_size"].map((field) => fields.indexOf(field));
  const bytes = { objects: 0, buffers: 0, code: 0 };
  for (let i = 0; i < nodes.length; i += fields.length) {
    const kind = node_types[0][nodes[i + type]];
    if (kind === "code") bytes.code += nodes[i + size];
    else if (kind !== "native") bytes.objects += nodes[i + size];
    // The page's nodes are counted elsewhere; beside them the browser keeps its own records here, of requests and of times.
    else if (strings[nodes[i + name]].includes("ArrayBufferData")) bytes.buffers += nodes[i + size];
  }
  const { objects, buffers, code } = bytes;
  return { objectsMb: objects / 2 ** 20, buffersMb: buffers / 2 ** 20, codeMb: code / 2 ** 20 };
}

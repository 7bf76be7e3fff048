const projectTypes = [{ description: "Ribband project", accept: { "application/json": [".json"] } }];

/** A file to read: with a way to write back where the browser has one, as a mere upload otherwise; null when dismissed. */
export async function pickFile(): Promise<FileSystemFileHandle | File | null> {
  if (!window.showOpenFilePicker) return pickUpload();
  const files = await dismissible(window.showOpenFilePicker({ types: projectTypes }));
  return files?.[0] ?? null;
}

/** A place to save at; "download" where the browser has no other way, null when dismissed. */
export async function pickPlace(name: string): Promise<FileSystemFileHandle | "download" | null> {
  if (!window.showSaveFilePicker) return "download";
  return dismissible(window.showSaveFilePicker({ suggestedName: name, types: projectTypes }));
}

/** Hands bytes to the browser's own downloads. */
export function download(name: string, bytes: Uint8Array<ArrayBuffer> | string, type: string): void {
  const url = URL.createObjectURL(new Blob([bytes], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the blob in its own time; a minute is plenty.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

function pickUpload(): Promise<File | null> {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".json,application/json";
  return new Promise((done) => {
    input.addEventListener("change", () => done(input.files?.[0] ?? null));
    input.addEventListener("cancel", () => done(null));
    input.click();
  });
}

async function dismissible<T>(asked: Promise<T>): Promise<T | null> {
  try {
    return await asked;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return null;
    throw error;
  }
}

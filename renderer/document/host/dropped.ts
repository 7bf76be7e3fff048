/** Calls back for a file dropped anywhere on the window, and keeps the browser from leaving the page for it. */
export function onFileDropped(listener: (file: File, item: DataTransferItem) => void): () => void {
  const over = (event: DragEvent) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "copy";
  };
  const drop = (event: DragEvent) => {
    const item = [...(event.dataTransfer?.items ?? [])].find(({ kind }) => kind === "file");
    const file = item?.getAsFile();
    if (!item || !file) return;
    event.preventDefault();
    listener(file, item);
  };
  window.addEventListener("dragover", over);
  window.addEventListener("drop", drop);
  return () => {
    window.removeEventListener("dragover", over);
    window.removeEventListener("drop", drop);
  };
}

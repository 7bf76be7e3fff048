import type { BrowserWindow, Dialog } from "electron";

type Boxes = Pick<Dialog, "showMessageBox">;

export async function askAboutHanging(dialog: Boxes, window: BrowserWindow): Promise<void> {
  const { response } = await dialog.showMessageBox(window, {
    type: "warning",
    message: "Ribband does not answer.",
    detail: "What is not saved was kept up to a few seconds ago and is offered at the next start.",
    buttons: ["Wait", "Close"],
    defaultId: 0,
    cancelId: 0,
  });
  if (response === 1) window.destroy();
}

export async function askAboutCrash(dialog: Boxes, window: BrowserWindow): Promise<void> {
  const { response } = await dialog.showMessageBox(window, {
    type: "error",
    message: "Ribband's window has failed.",
    detail: "What is not saved was kept up to a few seconds ago and is offered when it is loaded again.",
    buttons: ["Load again", "Close"],
    defaultId: 0,
    cancelId: 1,
  });
  if (response === 0) window.webContents.reload();
  else window.destroy();
}

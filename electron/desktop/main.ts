/** The desktop app: this file only joins Electron to the modules beside it, which know nothing of each other. */
import { join } from "node:path";
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, screen, session, shell } from "electron";
import { desktopChannels, type MenuCommand, titleOf } from "../../renderer/document/host/contract.ts";
import { answering } from "../channels/answer.ts";
import { machine } from "../channels/machine.ts";
import { jsonFile } from "../files/json-file.ts";
import { namedFile } from "../files/named-file.ts";
import { appProtocol } from "./app-protocol.ts";
import { closeQuestion } from "./close-question.ts";
import { desktopHandlers } from "./desktop-handlers.ts";
import { appAddress, appScheme, isTrustedSender } from "./guards.ts";
import { listen, tell } from "./ipc.ts";
import { menuTemplate } from "./menu.ts";
import { denyPermissions, pagePreferences, securePage } from "./secure-page.ts";
import { systemDialogs } from "./system-dialogs.ts";
import { askAboutCrash, askAboutHanging } from "./trouble.ts";
import { placeOn, smallest, windowPlace } from "./window-place.ts";

app.setName("Ribband");
// The identity of the installed app, so that Windows shows its windows and files as one.
if (process.platform === "win32") app.setAppUserModelId("ribband.desktop");
app.enableSandbox();
protocol.registerSchemesAsPrivileged([
  { scheme: appScheme, privileges: { standard: true, secure: true, supportFetchAPI: true } },
]);
if (process.env.RIBBAND_FOLDER) app.setPath("userData", process.env.RIBBAND_FOLDER);

const home = app.getPath("userData");
const here = machine(home, console.error);
const place = jsonFile(join(home, "window.json"), windowPlace.nullable(), null);

let window: BrowserWindow | undefined;
let named = namedFile(process.argv.slice(1), process.cwd());
let quitting = false;
let opening: Promise<void> | undefined;
let placing: Promise<void> | undefined;

/** Each window asks anew: on macOS the app outlives the window that was let go. */
const newQuestion = () =>
  closeQuestion(
    () => window && tell(window.webContents, "closeAsked"),
    () => window?.close(),
    () => {
      quitting = false;
    },
  );
let question = newQuestion();

/** What nobody waits for is still heard of when it fails. */
function unwaited(work: Promise<unknown>): void {
  work.catch(console.error);
}

const handlers = desktopHandlers(
  here,
  systemDialogs(dialog, () => window),
  {
    setTitle({ name, changed }) {
      question.setChanged(changed);
      window?.setTitle(titleOf(name, changed));
      window?.setDocumentEdited(changed);
      unwaited(showMenu());
    },
    answerClose: (mayClose) => question.answer(mayClose),
  },
  () => {
    const path = named;
    named = undefined;
    return path;
  },
);

async function showMenu(): Promise<void> {
  const recent = await here.known.recent();
  // The system's own list, in the Dock or the task bar.
  if (recent.length > 0) app.addRecentDocument(await here.known.pathOf(recent[0].handle));
  const template = menuTemplate(process.platform, recent, {
    command: (command) => unwaited(sendCommand(command)),
    openRecent: (handle) => unwaited(here.known.pathOf(handle).then(openNamed)),
  });
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}

async function sendCommand(command: MenuCommand): Promise<void> {
  if (window) tell(window.webContents, "command", command);
  else await openWindow();
}

/** A file named while the app runs. A new window fetches it by itself when its page is ready. */
async function openNamed(path: string): Promise<void> {
  named = path;
  if (!app.isReady()) return;
  if (!window) return openWindow();
  if (window.isMinimized()) window.restore();
  window.focus();
  tell(window.webContents, "named");
}

/** One window only, however many ask for it while it opens. */
function openWindow(): Promise<void> {
  opening ??= makeWindow().finally(() => {
    opening = undefined;
  });
  return opening;
}

async function makeWindow(): Promise<void> {
  const screens = [
    screen.getPrimaryDisplay(),
    ...screen.getAllDisplays().filter(({ id }) => id !== screen.getPrimaryDisplay().id),
  ].map(({ workArea }) => workArea);
  const { maximised, ...bounds } = placeOn(screens, await place.read());
  const opened = new BrowserWindow({
    ...bounds,
    minWidth: smallest.width,
    minHeight: smallest.height,
    show: false,
    title: "Ribband",
    webPreferences: pagePreferences(join(import.meta.dirname, "preload.cjs")),
  });
  window = opened;
  securePage(opened.webContents, shell);
  opened.once("ready-to-show", () => {
    if (maximised) opened.maximize();
    opened.show();
  });
  opened.on("close", (event) => {
    question.closing(event);
    if (!event.defaultPrevented) {
      placing = place
        .write({ ...opened.getNormalBounds(), maximised: opened.isMaximized() })
        .catch(console.error)
        .finally(() => {
          placing = undefined;
        });
    }
  });
  opened.on("closed", () => {
    window = undefined;
    question = newQuestion();
  });
  opened.on("unresponsive", () => unwaited(askAboutHanging(dialog, opened)));
  opened.webContents.on("render-process-gone", (_event, { reason }) => {
    question.setChanged(false);
    if (reason !== "clean-exit") unwaited(askAboutCrash(dialog, opened));
  });
  await opened.loadURL(appAddress);
}

function run(): void {
  app.on("second-instance", (_event, args, folder) => {
    const file = namedFile(args.slice(1), folder);
    if (file !== undefined) unwaited(openNamed(file));
    else window?.focus();
  });
  app.on("open-file", (event, path) => {
    event.preventDefault();
    unwaited(openNamed(path));
  });
  app.on("before-quit", () => {
    quitting = true;
  });
  app.on("window-all-closed", () => {
    if (process.platform !== "darwin" || quitting) app.quit();
  });
  app.on("will-quit", (event) => {
    if (!placing) return;
    event.preventDefault();
    unwaited(placing.then(() => app.quit()));
  });
  app.on("activate", () => {
    if (!window) unwaited(openWindow());
  });
  // Ctrl-C in the terminal asks nothing: what is not saved is kept and offered at the next start.
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => app.exit(0));

  unwaited(app.whenReady().then(ready));
}

async function ready(): Promise<void> {
  denyPermissions(session.defaultSession);
  protocol.handle(appScheme, appProtocol(join(import.meta.dirname, "../window")));
  listen(
    ipcMain,
    Object.keys(desktopChannels),
    (sender) => isTrustedSender(sender, window?.webContents.mainFrame),
    answering(desktopChannels, handlers, console.error),
  );
  await showMenu();
  await openWindow();
}

if (app.requestSingleInstanceLock()) run();
else app.quit();

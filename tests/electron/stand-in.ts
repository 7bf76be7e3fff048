/**
 * A stand-in for the electron package, as far as electron/desktop/main.ts uses it: events that can be played, windows
 * that note what is done to them. The real one needs its binary.
 */
import { EventEmitter } from "node:events";

class Contents extends EventEmitter {
  readonly mainFrame = { url: "app://ribband/index.html", processId: 7, frameToken: "A3" };
  readonly sent: unknown[][] = [];
  reloads = 0;
  setWindowOpenHandler(): void {}
  send(...args: unknown[]): void {
    this.sent.push(args);
  }
  reload(): void {
    this.reloads++;
  }
}

export class StandInWindow extends EventEmitter {
  readonly webContents = new Contents();
  readonly options: Record<string, unknown>;
  address = "";
  title = "";
  edited = false;
  shown = false;
  maximised = false;
  minimised = false;
  focused = 0;
  gone = false;
  /** Somebody asked where it stands: to write that down. */
  placed = false;

  constructor(options: Record<string, unknown>, all: StandInWindow[]) {
    super();
    this.options = options;
    all.push(this);
  }
  async loadURL(address: string): Promise<void> {
    this.address = address;
    this.emit("ready-to-show");
  }
  /** Asks its listeners, as the real one does; goes if none holds it back. */
  close(): void {
    const event = {
      defaultPrevented: false,
      preventDefault() {
        event.defaultPrevented = true;
      },
    };
    this.emit("close", event);
    if (!event.defaultPrevented) this.destroy();
  }
  destroy(): void {
    this.gone = true;
    this.emit("closed");
  }
  show(): void {
    this.shown = true;
  }
  maximize(): void {
    this.maximised = true;
  }
  isMaximized(): boolean {
    return this.maximised;
  }
  isMinimized(): boolean {
    return this.minimised;
  }
  restore(): void {
    this.minimised = false;
  }
  focus(): void {
    this.focused++;
  }
  getNormalBounds() {
    this.placed = true;
    return { x: 10, y: 40, width: 1000, height: 700 };
  }
  setTitle(title: string): void {
    this.title = title;
  }
  setDocumentEdited(edited: boolean): void {
    this.edited = edited;
  }
}

type MenuItem = { id?: string; label?: string; submenu?: MenuItem[]; click?: () => void };

/** @param first whether this is the only run of the app */
export function standIn(userData: string, first = true) {
  const windows: StandInWindow[] = [];
  const channels = new Map<string, (event: object, question?: unknown) => Promise<unknown>>();
  const protocols = new Map<string, (request: Request) => Promise<Response>>();
  const menus: MenuItem[][] = [];
  const permissions = new Set<string>();
  const messages: { message: string; buttons: string[] }[] = [];
  let answer = 0;
  let ready = false;
  const app = Object.assign(new EventEmitter(), {
    quits: 0,
    documents: [] as string[],
    setName() {},
    setAppUserModelId() {},
    addRecentDocument: (path: string) => void app.documents.push(path),
    enableSandbox() {},
    setPath() {},
    getPath: () => userData,
    isReady: () => ready,
    async whenReady() {
      ready = true;
    },
    requestSingleInstanceLock: () => first,
    exit() {},
    quit() {
      app.quits++;
      app.emit("before-quit");
      for (const window of windows.filter(({ gone }) => !gone)) window.close();
    },
  });
  class BrowserWindow extends StandInWindow {
    constructor(options: Record<string, unknown>) {
      super(options, windows);
    }
  }
  const display = { id: 1, workArea: { x: 0, y: 0, width: 1920, height: 1080 } };
  const electron = {
    app,
    BrowserWindow,
    dialog: {
      async showMessageBox(_window: unknown, box: { message: string; buttons: string[] }) {
        messages.push(box);
        return { response: answer };
      },
    },
    ipcMain: { handle: channels.set.bind(channels) },
    Menu: {
      buildFromTemplate: (template: MenuItem[]) => template,
      setApplicationMenu: (menu: MenuItem[]) => void menus.push(menu),
    },
    protocol: {
      registerSchemesAsPrivileged() {},
      handle: protocols.set.bind(protocols),
    },
    screen: { getPrimaryDisplay: () => display, getAllDisplays: () => [display] },
    session: {
      defaultSession: {
        setPermissionRequestHandler: () => permissions.add("request"),
        setPermissionCheckHandler: () => permissions.add("check"),
        setDevicePermissionHandler: () => permissions.add("device"),
      },
    },
    shell: { async openExternal() {} },
  };
  return {
    electron,
    app,
    windows,
    channels,
    protocols,
    menus,
    permissions,
    messages,
    answerNext(response: number) {
      answer = response;
    },
    /** Asks on a channel as the page of a window does. */
    ask: (window: StandInWindow, channel: string, question?: unknown) =>
      channels.get(`ribband:${channel}`)!({ senderFrame: window.webContents.mainFrame }, question),
    /** Clicks on the item of the latest menu with this id or the beginning of its label. */
    choose(name: string) {
      const all = (items: MenuItem[]): MenuItem[] =>
        items.flatMap((item) => [item, ...all(item.submenu ?? [])]);
      const item = all(menus.at(-1)!).find(({ id, label }) => id === name || label?.startsWith(name));
      item!.click!();
    },
  };
}

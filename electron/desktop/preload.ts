import { contextBridge, ipcRenderer, webUtils } from "electron";
import type { Bridge } from "../../renderer/document/host/contract.ts";
import { bridge } from "./bridge.ts";

const lent: Bridge = bridge(ipcRenderer, (file) => webUtils.getPathForFile(file as File));
contextBridge.exposeInMainWorld("ribband", lent);

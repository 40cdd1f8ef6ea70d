/*
 * Stands in for what Electron tells of the machine: displays, power and the menu. Nothing of it is real;
 * a test says what there is.
 */

import { EventEmitter } from 'node:events';
import type Electron from 'electron';

type ScreenParts = Pick<Electron.Screen, 'getAllDisplays' | 'getDisplayMatching' | 'getPrimaryDisplay'>;

/** What a display needs to be of use here. */
export interface StandInDisplay {
  readonly id: number;
  readonly label: string;
  readonly internal: boolean;
  readonly bounds: Electron.Rectangle;
  /** Otherwise the first one is. */
  readonly primary?: boolean;
}

export class StandInScreen extends EventEmitter implements ScreenParts {
  displays: readonly StandInDisplay[];

  constructor(displays: readonly StandInDisplay[]) {
    super();
    this.displays = displays;
  }

  getAllDisplays(): Electron.Display[] {
    return this.displays.map(fullDisplay);
  }

  getPrimaryDisplay(): Electron.Display {
    return fullDisplay(this.displays.find(({ primary }) => primary) ?? this.displays[0]!);
  }

  /** The one that most of the rectangle lies on. */
  getDisplayMatching(rectangle: Electron.Rectangle): Electron.Display {
    const all = this.getAllDisplays();
    const shared = (display: Electron.Display): number => sharedArea(display.bounds, rectangle);
    return all.reduce((best, display) => (shared(display) > shared(best) ? display : best));
  }
}

function fullDisplay(display: StandInDisplay): Electron.Display {
  const { width, height } = display.bounds;
  const size = { width, height };
  return {
    ...display,
    workArea: display.bounds,
    size,
    workAreaSize: size,
    nativeOrigin: { x: display.bounds.x, y: display.bounds.y },
    scaleFactor: 1,
    rotation: 0,
    touchSupport: 'unknown',
    accelerometerSupport: 'unknown',
    monochrome: false,
    detected: true,
    maximumCursorSize: { width: 0, height: 0 },
    colorDepth: 24,
    colorSpace: '',
    depthPerComponent: 8,
    displayFrequency: 60,
  };
}

function sharedArea(a: Electron.Rectangle, b: Electron.Rectangle): number {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return Math.max(0, across) * Math.max(0, down);
}

export class StandInPowerSaveBlocker implements Pick<Electron.PowerSaveBlocker, 'start' | 'stop' | 'isStarted'> {
  private readonly started = new Map<number, string>();
  private last = -1;

  start(type: 'prevent-app-suspension' | 'prevent-display-sleep'): number {
    this.started.set(++this.last, type);
    return this.last;
  }

  stop(id: number): boolean {
    return this.started.delete(id);
  }

  isStarted(id: number): boolean {
    return this.started.has(id);
  }
}

/** Labels, marks and what a click does; no drawing, no accelerators, and roles do nothing. */
export class StandInMenu {
  readonly items: readonly StandInMenuItem[];

  constructor(items: readonly StandInMenuItem[]) {
    this.items = items;
  }

  private static application: StandInMenu | null = null;

  static buildFromTemplate(template: readonly Electron.MenuItemConstructorOptions[]): StandInMenu {
    return new StandInMenu(template.map((options) => new StandInMenuItem(options)));
  }

  static setApplicationMenu(menu: StandInMenu | null): void {
    StandInMenu.application = menu;
  }

  static getApplicationMenu(): StandInMenu | null {
    return StandInMenu.application;
  }
}

export class StandInMenuItem {
  readonly label: string;
  readonly role: string | undefined;
  readonly type: string;
  readonly submenu: StandInMenu | null;
  checked: boolean;
  private readonly clicked: Electron.MenuItemConstructorOptions['click'];

  constructor({ label = '', role, type, submenu, checked = false, click }: Electron.MenuItemConstructorOptions) {
    if (submenu !== undefined && type !== undefined && type !== 'submenu') throw new Error('Invalid submenu');
    this.label = label;
    this.role = role;
    this.type = submenu ? 'submenu' : (type ?? 'normal');
    this.submenu = Array.isArray(submenu) ? StandInMenu.buildFromTemplate(submenu) : null;
    this.checked = checked;
    this.clicked = click;
  }

  /** As a person's click: a checkbox turns first. */
  click(): void {
    if (this.type === 'checkbox') this.checked = !this.checked;
    if (this.type === 'radio') this.checked = true;
    this.clicked?.(this as unknown as Electron.MenuItem, undefined, {} as Electron.KeyboardEvent);
  }
}

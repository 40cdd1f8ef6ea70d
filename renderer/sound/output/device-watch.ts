/*
 * Whether there is anything at all that could play. A browser whose loudspeaker is unplugged goes on as
 * if nothing were wrong, on an output that nobody hears, and stays there when the loudspeaker is back; the
 * list of devices tells, in browsers that have one.
 */

/** What is read of the browser's list of devices. */
export interface DeviceList {
  enumerateDevices(): Promise<readonly { readonly kind: string }[]>;
}

export interface DeviceWatch {
  /** To be called often; asks the browser once a second. */
  look(now: number): void;
  /** There was something that plays, and there is nothing now. */
  isGone(): boolean;
}

/** In ms. */
const EVERY = 1000;

/** `list`: none where the browser has none, or gives it only to pages from elsewhere. */
export function createDeviceWatch(list: DeviceList | undefined): DeviceWatch {
  let askedAt = -Infinity;
  // Some browsers list no outputs at all: that nothing is there is believed only of those that listed one.
  let wasThere = false;
  let gone = false;
  return {
    look(now) {
      if (!list || now - askedAt < EVERY) return;
      askedAt = now;
      list.enumerateDevices().then(
        (devices) => {
          const isThere = devices.some(({ kind }) => kind === 'audiooutput');
          wasThere = wasThere || isThere;
          gone = wasThere && !isThere;
        },
        // A browser that does not tell is not held against the device.
        () => undefined,
      );
    },
    isGone: () => gone,
  };
}

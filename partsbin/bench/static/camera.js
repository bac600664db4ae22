// The camera: opens it, says in words why it gives nothing, and hands out frames as JPEG.
"use strict";

class Camera {
  static WANTED = { width: { ideal: 1280 }, height: { ideal: 720 } };
  static QUALITY = 0.8;
  static PATIENCE = 3000; // milliseconds without a new picture
  static FAULTS = {
    NotAllowedError: "The camera is not allowed. Allow it for this page beside the address, then start again; or type the number.",
    NotFoundError: "No camera is connected. Connect one and start again; or type the number, or take a photograph.",
    NotReadableError: "Another program holds the camera. Close it there and start again.",
    AbortError: "The camera did not start. Unplug it, connect it again and start again.",
    FrozenError: "The camera gives no picture. Unplug it, connect it again and start again.",
    OverconstrainedError: "This camera cannot do that. Choose another one.",
  };
  static FROZEN = "The camera is frozen: no new picture comes. Stop what else uses it, or connect it again.";
  static NO_HTTPS = "This browser gives its camera only to the laptop itself. Take a photograph of the label below; or type the number.";

  constructor(video, told) {
    this.video = video;
    this.told = told; // a function of words, and whether they are a fault
    this.canvas = document.createElement("canvas");
    this.stream = null;
    this.starting = false;
    this.lastCount = -1;
    this.lastNew = 0;
  }

  get running() { return this.stream !== null; }

  // Whether it runs now; a second start while one is under way changes nothing.
  async start(device) {
    if (this.starting) return false;
    this.starting = true;
    try {
      return await this.open(device);
    } finally {
      this.starting = false;
    }
  }

  async open(device) {
    this.stop();
    if (!navigator.mediaDevices?.getUserMedia) {
      this.told(Camera.NO_HTTPS, true);
      return false;
    }
    const which = device ? { deviceId: { exact: device } } : { facingMode: "environment" };
    try {
      this.stream = await navigator.mediaDevices.getUserMedia({ video: { ...Camera.WANTED, ...which } });
      this.video.srcObject = this.stream;
      await this.first();
    } catch (fault) {
      this.stop();
      this.told(Camera.FAULTS[fault.name] ?? `The camera does not start (${fault.name}). Try another one.`, true);
      return false;
    }
    this.stream.getVideoTracks()[0].addEventListener("ended", () => {
      this.stop();
      this.told("The camera went away. Connect it again and start again.", true);
    });
    this.lastCount = -1;
    this.lastNew = performance.now();
    this.told("", false);
    return true;
  }

  // Waits for the first picture; some cameras open and then never give one.
  first() {
    const late = new Promise((_, reject) => {
      setTimeout(() => reject(new DOMException("", "FrozenError")), Camera.PATIENCE);
    });
    return Promise.race([this.video.play(), late]);
  }

  stop() {
    for (const track of this.stream?.getTracks() ?? []) track.stop();
    this.stream = null;
    this.video.srcObject = null;
  }

  // A JPEG of a picture that was not given before; null if there is none yet.
  async frame() {
    const { video, canvas } = this;
    const now = performance.now();
    // Not the time: that goes on though no picture comes.
    const count = video.getVideoPlaybackQuality().totalVideoFrames;
    if (!video.videoWidth || count === this.lastCount) {
      if (now - this.lastNew > Camera.PATIENCE) {
        this.told(Camera.FROZEN, true);
        this.lastNew = Infinity;
      }
      return null;
    }
    if (this.lastNew === Infinity) this.told("", false);
    this.lastCount = count;
    this.lastNew = now;
    canvas.width = video.videoWidth;
    canvas.height = video.videoHeight;
    canvas.getContext("2d", { alpha: false }).drawImage(video, 0, 0);
    return new Promise((resolve) => { canvas.toBlob(resolve, "image/jpeg", Camera.QUALITY); });
  }

  async list() {
    const all = await navigator.mediaDevices.enumerateDevices();
    return all.filter((device) => device.kind === "videoinput");
  }
}

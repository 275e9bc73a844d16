// SPDX-License-Identifier: GPL-3.0-or-later
// Reading codes by the camera: by the browser itself where it can, else by a small library that comes only then.
import { useEffect, useRef, useState } from "preact/hooks";
import { Say } from "./form";
import { say } from "./words";

type Eye = (video: HTMLVideoElement) => Promise<string | null>;
interface Detector { detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]> }
declare const BarcodeDetector: { new(options: { formats: string[] }): Detector; getSupportedFormats(): Promise<string[]> } | undefined;

async function eye(): Promise<Eye> {
  if (typeof BarcodeDetector !== "undefined" && (await BarcodeDetector.getSupportedFormats().catch((): string[] => [])).includes("qr_code")) {
    const detector = new BarcodeDetector({ formats: ["qr_code"] });
    return async (video) => (await detector.detect(video))[0]?.rawValue ?? null;
  }
  const read = (await import("jsqr")).default, canvas = document.createElement("canvas"), context = canvas.getContext("2d", { willReadFrequently: true });
  return (video) => {
    canvas.width = video.videoWidth;
    canvas.height = video.videoHeight;
    if (!context || !canvas.width) return Promise.resolve(null);
    context.drawImage(video, 0, 0);
    const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
    return Promise.resolve(read(data, width, height, { inversionAttempts: "attemptBoth" })?.data ?? null);
  };
}

/** What a printed label says of its thing: the last part of what the code holds. */
export const labelIn = (text: string): string => text.trim().replace(/[?#].*$/, "").split("/").filter(Boolean).pop() ?? "";

/** found: a code's text; it answers with a word for the person, "" ends the looking. */
export function Scan({ found, close }: { found: (text: string) => string | Promise<string>; close: () => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [word, setWord] = useState(say("Hold the code before the camera.")), [wrong, setWrong] = useState("");
  useEffect(() => {
    let stopped = false, stream: MediaStream | undefined, seen = "";
    const look = async (): Promise<void> => {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      const place = video.current, see = await eye();
      if (!place || stopped) return;
      place.srcObject = stream;
      await place.play();
      while (!stopped) {
        const text = await see(place);
        if (text && text !== seen) {
          seen = text;
          const said = await found(text);
          if (!said) { close(); return; }
          setWord(said);
          navigator.vibrate?.(60);
        }
        await new Promise((on) => setTimeout(on, 120));
      }
    };
    look().catch(() => setWrong(say("The camera cannot be used. Allow it for this page, or type the label.")))
      .finally(() => { if (stopped) stream?.getTracks().forEach((track) => track.stop()); });
    return () => { stopped = true; stream?.getTracks().forEach((track) => track.stop()); };
  }, []);
  return (
    <div class="scan" role="group" aria-label={say("Camera")}>
      <video ref={video} muted playsInline />
      <p role="status">{word}</p>
      <Say what={wrong} />
      <button type="button" onClick={close}>{say("Close the camera")}</button>
    </div>
  );
}

export function ScanButton(p: { label: string; found: (label: string) => string }) {
  const [open, setOpen] = useState(false);
  if (!window.isSecureContext || !navigator.mediaDevices) return null;
  return open ? <Scan found={(text) => p.found(labelIn(text))} close={() => setOpen(false)} /> : <div class="field"><button type="button" class="besidefield" onClick={() => setOpen(true)}>{p.label}</button></div>;
}

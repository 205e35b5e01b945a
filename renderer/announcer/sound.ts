/** The window's own sound: the system's voices, or short tones from the audio clock. */
import type { Sound, ToneKind } from './announcer.ts';

/** Hertz and seconds of each tone in turn; a workshop's noise lies mostly below 500 Hz (common practice, no source). */
const TONES: Readonly<Record<ToneKind, readonly (readonly [number, number])[]>> = {
  move: [
    [880, 0.14],
    [880, 0.14],
  ],
  next: [[660, 0.18]],
  finished: [
    [660, 0.14],
    [990, 0.22],
  ],
};

const GAP_S = 0.06;

function voiceFor(languageTag: string): SpeechSynthesisVoice | undefined {
  const language = languageTag.slice(0, 2).toLowerCase();
  const voices = globalThis.speechSynthesis?.getVoices() ?? [];
  // A voice from elsewhere would send the words out of the house.
  return voices.find((each) => each.localService && each.lang.toLowerCase().startsWith(language));
}

export function windowSound(): Sound {
  let audio: AudioContext | undefined;
  return {
    speak(text, languageTag) {
      const voice = voiceFor(languageTag);
      if (voice === undefined) return false;
      const words = new SpeechSynthesisUtterance(text);
      words.voice = voice;
      words.lang = languageTag;
      // The newest line is the one that counts.
      speechSynthesis.cancel();
      speechSynthesis.speak(words);
      return true;
    },
    tone(kind) {
      audio ??= new AudioContext();
      let at = audio.currentTime;
      for (const [hertz, seconds] of TONES[kind]) {
        const tone = audio.createOscillator();
        tone.frequency.value = hertz;
        tone.connect(audio.destination);
        tone.start(at);
        tone.stop(at + seconds);
        at += seconds + GAP_S;
      }
    },
  };
}

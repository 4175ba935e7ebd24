declare module 'jsquest-plus' {
  type Curve = (stimulus: number, first: number, second: number, third: number, fourth?: number) => number;
  export default class Quest {
    constructor(settings: {
      psych_func: readonly Curve[];
      stim_samples: readonly (readonly number[])[];
      psych_samples: readonly (readonly number[])[];
      priors?: unknown;
    });
    static set_prior(priors: readonly (readonly number[])[]): unknown;
    readonly comb_PF_params: readonly (readonly number[])[];
    readonly normalized_posteriors: readonly number[];
    update(stim: number, response: number): void;
  }
}

// Layer planes drawn on a part: dark lines across the build direction, and the bed under it.

import * as THREE from "three";

/** Lines closer than this share of the part's size would run together on a screen. */
const CLOSEST = 1 / 80;

/** A material whose surface shows the layers when `spacing` is above 0. */
export class LayeredMaterial extends THREE.MeshLambertMaterial {
  private readonly uniforms = {
    layerDirection: { value: new THREE.Vector3(0, 0, 1) },
    layerSpacing: { value: 0 },
  };

  constructor() {
    super({ vertexColors: true, side: THREE.DoubleSide, flatShading: true });
    this.onBeforeCompile = (shader) => {
      Object.assign(shader.uniforms, this.uniforms);
      shader.vertexShader = shader.vertexShader
        .replace("#include <common>", "#include <common>\nuniform vec3 layerDirection;\nvarying float layerHeight;")
        .replace("#include <begin_vertex>", "#include <begin_vertex>\nlayerHeight = dot(position, layerDirection);");
      shader.fragmentShader = shader.fragmentShader
        .replace("#include <common>", "#include <common>\nuniform float layerSpacing;\nvarying float layerHeight;")
        .replace(
          "#include <color_fragment>",
          `#include <color_fragment>
          if (layerSpacing > 0.0) {
            float place = layerHeight / layerSpacing;
            float width = fwidth(place);
            float line = 1.0 - smoothstep(0.06, 0.06 + width, abs(fract(place) - 0.5));
            diffuseColor.rgb *= 1.0 - 0.5 * line * (1.0 - smoothstep(0.3, 0.7, width));
          }`,
        );
    };
  }

  /** Draws lines across a direction; 0 draws none. */
  layers(direction: THREE.Vector3, spacing: number) {
    this.uniforms.layerDirection.value.copy(direction);
    this.uniforms.layerSpacing.value = spacing;
  }
}

/** Distance between drawn lines: a round number of layers that can be told apart. */
export function drawnSpacing(sizeMm: number, layerMm: number): { spacing: number; each: number } {
  const least = sizeMm * CLOSEST;
  const each = [1, 2, 5, 10, 20, 50, 100, 200, 500].find((count) => count * layerMm >= least) ?? 1000;
  return { spacing: each * layerMm, each };
}

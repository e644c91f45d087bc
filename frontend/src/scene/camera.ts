import { MathUtils, OrthographicCamera, Quaternion, Vector3 } from "three";
import type { Point3 } from "../api/client";

/** An orthographic eye that turns round a place without ever flipping over. */
export class Eye {
  readonly camera = new OrthographicCamera(-1, 1, 1, -1, -400, 400);
  readonly target = new Vector3();
  private height = 80;
  private aspect = 1;

  shape(aspect: number): void {
    this.aspect = aspect;
    this.place();
  }

  /** See a box of this size round a centre. */
  whole(centre: Vector3, size: number): void {
    this.target.copy(centre);
    this.height = Math.max(size, (1.2 * size) / this.aspect); // a box seen askew is wider
    this.place();
  }

  look(toward: Point3, up: Point3): void {
    const z = new Vector3(...toward).normalize();
    const x = new Vector3(...up).cross(z).normalize();
    const y = z.clone().cross(x);
    this.camera.matrix.makeBasis(x, y, z);
    this.camera.quaternion.setFromRotationMatrix(this.camera.matrix);
    this.place();
  }

  /** Unit vector from what is looked at to the eye. */
  toward(): Point3 {
    return new Vector3(0, 0, 1).applyQuaternion(this.camera.quaternion).toArray() as Point3;
  }

  turn(rightDeg: number, upDeg: number): void {
    const q = this.camera.quaternion;
    const across = new Quaternion().setFromAxisAngle(new Vector3(0, 1, 0), -MathUtils.degToRad(rightDeg));
    const over = new Quaternion().setFromAxisAngle(new Vector3(1, 0, 0), -MathUtils.degToRad(upDeg));
    q.multiply(across).multiply(over).normalize();
    this.place();
  }

  shift(right: number, up: number): void {
    const step = new Vector3(-right * this.height, -up * this.height, 0);
    this.target.add(step.applyQuaternion(this.camera.quaternion));
    this.place();
  }

  zoom(factor: number, towards?: Vector3): void {
    const next = MathUtils.clamp(this.height * factor, 2, 400);
    if (towards) this.target.lerp(towards, 1 - next / this.height);
    this.height = next;
    this.place();
  }

  go(at: Point3, height?: number): void {
    this.target.set(...at);
    if (height) this.height = height;
    this.place();
  }

  get mmHigh(): number {
    return this.height;
  }

  private place(): void {
    const c = this.camera;
    c.top = this.height / 2;
    c.bottom = -c.top;
    c.right = c.top * this.aspect;
    c.left = -c.right;
    c.position.copy(this.target);
    c.updateProjectionMatrix();
    c.updateMatrixWorld();
  }
}

// The generated assembly information names attributes that the microcontroller's core library lacks; this one it has.
[assembly: System.Reflection.AssemblyVersion("0.1.0.0")]

Console.Error.WriteLine("storemap");
return 0;
